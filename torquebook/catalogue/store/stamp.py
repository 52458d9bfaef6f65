"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "a904d28b6e228895"
