"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "906b10107c3a1c7d"
