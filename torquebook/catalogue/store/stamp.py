"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "c476259275ae9cef"
