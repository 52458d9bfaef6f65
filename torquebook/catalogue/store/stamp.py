"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "dbef395689cb528a"
