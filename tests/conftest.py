"""What all tests share: golden files are rewritten with ``--update-golden``."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path


# Nobody's own bench has a say in a test.
os.environ["TORQUEBOOK_BENCH"] = os.path.join(os.path.dirname(__file__), "no bench")  # noqa: PTH118, PTH120 - as the program has it

# CI draws the same examples every time; on a desk each run tries others.
settings.register_profile("ci", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("ci")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Offer the option that rewrites expected outputs; the diff is then reviewed."""
    parser.addoption("--update-golden", action="store_true", help="rewrite expected outputs")


@pytest.fixture(scope="session", autouse=True)
def _cache_of_its_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep the indexes of the tests' folders away from the user's own cache."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture
def same_as_golden(request: pytest.FixtureRequest) -> Callable[[Path, str], None]:
    """Return a check that a text equals a golden file, or rewrites the file if asked to."""

    def check(path: Path, text: str) -> None:
        if request.config.getoption("--update-golden"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        assert path.read_text(encoding="utf-8") == text

    return check
