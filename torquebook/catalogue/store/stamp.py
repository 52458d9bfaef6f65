"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "f673c5d915acecb7"
