"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "966e88ac07b561da"
