"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "58999d532209fcc2"
