"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "5fd351dca4bd7b25"
