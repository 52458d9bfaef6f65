"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "75b08fc137b5a56a"
