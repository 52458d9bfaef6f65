"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "86cc6daef67d68fa"
