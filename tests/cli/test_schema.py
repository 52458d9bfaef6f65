"""``torquebook schema``."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from jsonschema import Draft202012Validator

if TYPE_CHECKING:
    from conftest import Runner


def test_every_listed_kind_prints_a_schema(cli: Runner) -> None:
    """What the list names can be had, and is a JSON Schema."""
    kinds = cli("schema").out.split()
    assert "wrench" in kinds
    assert json.loads(cli("schema", "--json").out) == kinds
    for kind in kinds:
        Draft202012Validator.check_schema(json.loads(cli("schema", kind).out))


def test_mistyped_kind_is_answered_with_the_nearest(cli: Runner) -> None:
    """A kind that nobody knows offers those that look alike."""
    ran = cli("schema", "wrnch")
    assert ran.code == 2
    assert "write wrench" in ran.err
