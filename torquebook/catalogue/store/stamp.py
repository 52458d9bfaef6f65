"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "ef214a4d518490da"
