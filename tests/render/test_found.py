"""Names of files as a CI has them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING
from urllib.parse import unquote_to_bytes, urlsplit

import pytest
from admissions import NAMES, octets
from hypothesis import given

from torquebook.render.found import from_root, quiet, uri

if TYPE_CHECKING:
    from pathlib import Path

# RFC 3986, 3.3 and appendix A: pchar, "/", and "%" with two hex digits only; no scheme.
PATH = re.compile(r"(?:[A-Za-z0-9\-._~!$&'()*+,;=@/]|%[0-9A-F]{2})*")


@given(NAMES)
def test_uri_is_a_relative_reference_and_reads_back(name: str) -> None:
    """Each byte of a name comes back; no name is taken for a scheme, a query or a fragment."""
    relative = f"d/{name}"
    written = uri(relative)
    assert PATH.fullmatch(written)
    assert urlsplit(written).path == written
    assert unquote_to_bytes(written) == octets(relative)


@pytest.mark.parametrize(
    ("name", "written"),
    [
        ("a:b.yaml", "a%3Ab.yaml"),
        ("ö.yaml", "%C3%B6.yaml"),
        ("\udcff.yaml", "%FF.yaml"),
        ("C:/specs/a.yaml", "file:///C%3A/specs/a.yaml"),
        ("/a#b?.yaml", "file:///a%23b%3F.yaml"),
    ],
)
def test_uri(name: str, written: str) -> None:
    """Names as RFC 3986, 2.1 and RFC 8089, 2 have them."""
    assert uri(name) == written


def test_from_root_of_the_current_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Names are made to begin at the root, by whatever way they were asked for."""
    (tmp_path / "repo" / "specs").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "repo" / "specs")
    assert from_root("a.yaml", "") == "a.yaml"
    assert from_root("a.yaml", "..") == "specs/a.yaml"
    assert from_root("../specs/a.yaml", str(tmp_path / "repo")) == "specs/a.yaml"
    assert from_root("../b.yaml", "") == (tmp_path / "repo" / "b.yaml").as_posix()
    assert from_root("..b.yaml", "") == "..b.yaml"
    assert from_root("", "") == ""


@given(NAMES)
def test_quiet(text: str) -> None:
    """Neither form of a command is left."""
    assert "::" not in quiet(text)
    assert "##[" not in quiet(text)
