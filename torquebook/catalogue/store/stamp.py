"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "642c7a8138f585e4"
