"""Imports go one way, and every module of the bench path stays light."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "torquebook"
# Lower numbers know nothing of higher ones; see "Layers" in DEVELOPERS.md.
LAYERS = {
    "errors": 0, "bands": 0, "findings": 0,
    "numerals": 1, "unitnames": 1, "units": 2, "notation": 3,
    "mechanics": 4, "records": 4, "patterns": 4,
    "catalogue": 5,
    "plans": 6, "answers": 6,
    "rules": 7, "reuse": 7,
    "jobs": 8, "quiz": 8,
    "render": 9,
    "cli": 10,
}  # fmt: skip
MODULES = sorted(path for path in PACKAGE.rglob("*.py") if path.parent != PACKAGE) + sorted(
    path for path in PACKAGE.glob("*.py") if path.stem not in ("__init__", "__main__")
)


def layer_of(module: str) -> str:
    """Return the part of the package that a dotted name belongs to."""
    return module.split(".")[1]


def imports_of(path: Path) -> set[str]:
    """Return the parts of our package that a module imports, wherever in its text."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "torquebook":
            found |= {alias.name for alias in node.names if alias.name in LAYERS}
        elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith("torquebook."):
            found.add(layer_of(node.module or ""))
        elif isinstance(node, ast.Import):
            found |= {layer_of(a.name) for a in node.names if a.name.startswith("torquebook.")}
    return found


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_point_downward(path: Path) -> None:
    """No module imports a part of the program that stands above its own."""
    own = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    upward = {part for part in imports_of(path) if LAYERS[part] > LAYERS[own]}
    # A plan may be YAML, so its readers know the strict reader; a user's records go
    # through their models, which only the vetting path loads.
    assert upward == set()


def test_formulas_know_only_bands_and_errors() -> None:
    """Mechanics imports nothing of ours but bands and errors."""
    known = set().union(*(imports_of(path) for path in (PACKAGE / "mechanics").glob("*.py")))
    assert known <= {"bands", "errors", "mechanics"}
    assert "errors" in known


def test_nothing_imports_the_commands() -> None:
    """Only the entry point knows the commands."""
    outside = [path for path in MODULES if path.parent.name != "cli"]
    assert len(outside) > 50
    assert not any("cli" in imports_of(path) for path in outside)


def test_modules_fit_on_a_few_screens() -> None:
    """No module is longer than 400 lines."""
    long = {
        path.name: lines
        for path in MODULES
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert long == {}
