"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "1db16b5b259e14a8"
