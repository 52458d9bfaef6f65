"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "9e7dc1f47c25cee9"
