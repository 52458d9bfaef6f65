"""Run with ``python -m torquebook``."""

from torquebook.cli import main

main()
