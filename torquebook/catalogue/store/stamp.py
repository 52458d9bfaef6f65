"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "dff915db584d2bf2"
