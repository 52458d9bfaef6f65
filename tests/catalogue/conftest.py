"""A record to break, shared by the tests of reading and of layers."""

from __future__ import annotations

import pytest

CLASSES = """\
# a comment
kind: strength classes
title: "Bolts"
standard: "ISO 898-1"
edition: "2013"
family: metric
stress_unit: MPa
length_unit: mm
classes:
  - {name: "8.8", tensile: 800, yield: 640, proof: 580, over: 0, to: 16}
  - {name: "10.9", tensile: 1040, yield: 940, proof: 830, over: 0, to: 39}
source:
  kind: invented
  title: "test"
  provenance: "invented"
"""


@pytest.fixture
def classes_text() -> str:
    """Return a sound record of strength classes."""
    return CLASSES
