"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "424aa672dfeb73ee"
