"""Docstrings, signatures and the glossary of ``mechanics`` say the same."""

from __future__ import annotations

import inspect
import re
from importlib import import_module
from pkgutil import iter_modules
from typing import TYPE_CHECKING

import pytest

from torquebook import mechanics

if TYPE_CHECKING:
    from collections.abc import Callable

UNITS = {
    "_mm_per_n": "mm/N",
    "_mm": "mm",
    "_mm2": "mm2",
    "_n": "N",
    "_nm": "N·m",
    "_mpa": "MPa",
    "_deg": "°",
}
HEADINGS = ["Parameters", "Returns", "Valid range", "Raises", "Source", "Example"]
CHECKS = "limits"  # range checks: no formulas, so no pages of their own


def _formulas() -> list[Callable[..., object]]:
    names = [module.name for module in iter_modules(mechanics.__path__) if module.name != CHECKS]
    modules = [import_module(f"torquebook.mechanics.{name}") for name in names]
    return [
        formula
        for module in modules
        for name, formula in inspect.getmembers(module, inspect.isfunction)
        if formula.__module__ == module.__name__ and not name.startswith("_")
    ]


FORMULAS = _formulas()
each = pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.__qualname__)


def _doc(formula: Callable[..., object]) -> str:
    return inspect.getdoc(formula) or ""


def _parameters(doc: str) -> dict[str, str]:
    """Return the text of each parameter, by name."""
    section = doc.partition("Parameters\n----------\n")[2].partition("\n\nReturns")[0]
    found = re.findall(r"^(\w+) : \w+\n((?: {4}.*\n?)+)", section, re.MULTILINE)
    return {name: " ".join(text.split()) for name, text in found}


def _unit(name: str) -> str:
    """Return the unit that a name's suffix stands for; 1 for a pure number."""
    return next((unit for suffix, unit in UNITS.items() if name.endswith(suffix)), "1")


def _glossary() -> dict[str, str]:
    """Return the unit by name."""
    rows = re.findall(r"^(\w+) +(\S+) +(\S+) {2,}\S", mechanics.__doc__ or "", re.MULTILINE)
    return {name: unit for name, _, unit in rows if name != "name"}


def test_formulas_are_found() -> None:
    """The walk finds the formulas, so that the tests below cannot pass for want of any."""
    assert len(FORMULAS) == 71


@each
def test_parameters_are_the_signature(formula: Callable[..., object]) -> None:
    """The docstring lists the arguments of the signature in their order."""
    assert list(_parameters(_doc(formula))) == list(inspect.signature(formula).parameters)


@each
def test_units_are_the_suffixes(formula: Callable[..., object]) -> None:
    """The unit in brackets at the end is that of the name's suffix, and of the glossary."""
    glossary = _glossary()
    kinds = inspect.signature(formula).parameters
    for name, text in _parameters(_doc(formula)).items():
        bracket = re.search(r"\[([^\]]+)\]$", text)
        if kinds[name].annotation == "float":
            assert bracket, f"{name}: no unit in brackets"
            assert bracket[1] == _unit(name) == glossary[name], name
        else:
            assert not bracket, name
            assert glossary[name] == "-", name


@each
def test_headings_are_in_order(formula: Callable[..., object]) -> None:
    """Every formula has its headings once and in the fixed order."""
    found = re.findall(r"^(\w[\w ]*)\n-{5,}$", _doc(formula), re.MULTILINE)
    assert found == HEADINGS


@each
def test_example_is_a_doctest(formula: Callable[..., object]) -> None:
    """Every example calls the formula it explains."""
    example = _doc(formula).partition("Example\n")[2]
    assert re.search(rf"^(>>>|\.\.\.).*\b{formula.__name__}\(", example, re.MULTILINE)


def test_glossary_has_no_idle_names() -> None:
    """Every name of the glossary is an argument of some formula."""
    used = {name for formula in FORMULAS for name in inspect.signature(formula).parameters}
    assert set(_glossary()) == used
