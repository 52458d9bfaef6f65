"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "f66cd066938d4522"
