"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "38369130a3f3a8ff"
