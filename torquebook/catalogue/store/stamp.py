"""What an index was made with; made by: python -m torquebook.catalogue.build."""

STAMP = "722117d70307b2c1"
