"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "391f5c98275f07d9"
