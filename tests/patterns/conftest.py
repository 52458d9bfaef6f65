"""The orders that are published, which tests of making, reading and measuring share."""

from __future__ import annotations

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.lookup import plain


@pytest.fixture(scope="session")
def published() -> dict[str, tuple[int, ...]]:
    """Return the book's published orders by name."""
    return {plain(one.name): one.order for one in Book.open().patterns()}
