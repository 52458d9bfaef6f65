"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "a7f03208c24fbc7e"
