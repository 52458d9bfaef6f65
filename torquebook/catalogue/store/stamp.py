"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "27335cccae37f7f0"
