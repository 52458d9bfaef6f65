"""The schemas of the kinds of record."""

from __future__ import annotations

import json

import pytest

from torquebook.answers.schemas import kinds, schema
from torquebook.errors import NotUnderstood


def test_every_kind_has_its_schema() -> None:
    """Every kind that is listed has a JSON document, however its name is typed."""
    assert kinds() == tuple(sorted(kinds()))
    for kind in kinds():
        assert json.loads(schema(kind))["$schema"].endswith("2020-12/schema")
    assert schema("printed table") == schema("Printed_Table") == schema("printed-table")


@pytest.mark.parametrize("kind", ["wrnch", "../specs/x", ""])
def test_unknown_kind_is_refused(kind: str) -> None:
    """What is no kind is no file name either."""
    with pytest.raises(NotUnderstood):
        schema(kind)
