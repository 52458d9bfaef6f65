"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "550e0491bebcbaa2"
