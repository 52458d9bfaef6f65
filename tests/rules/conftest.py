"""What the tests of the rules share: our own book, opened once."""

from __future__ import annotations

import pytest

from torquebook.catalogue.book import Book


@pytest.fixture(scope="session")
def book() -> Book:
    """Return our own book."""
    return Book.open()
