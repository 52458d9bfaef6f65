"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "3aef42e4ecff6da7"
