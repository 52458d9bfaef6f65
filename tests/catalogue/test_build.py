"""Checks that what is generated equals what it is generated from."""

from __future__ import annotations

import json
import runpy
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import jsonschema
import pytest
from first_faults import load_file, record_files, vet_folder

from torquebook.catalogue import build, index, places
from torquebook.catalogue.index import INDEX, MADE_BY
from torquebook.catalogue.layers import vetted
from torquebook.catalogue.places import record_id, schema_root, specs_root
from torquebook.catalogue.store import own, stamp
from torquebook.catalogue.store.own import CARDS
from torquebook.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Iterator

#: What draft-07 and 2020-12 share; $defs is only pointed at, which any draft follows.
SHARED = {
    "$comment", "$defs", "$ref", "$schema", "additionalProperties", "allOf", "anyOf", "const",
    "description", "enum", "exclusiveMaximum", "exclusiveMinimum", "items", "maxItems",
    "maxLength", "maximum", "minItems", "minLength", "minimum", "oneOf", "pattern", "properties",
    "propertyNames", "required", "type",
}  # fmt: skip
NAMED = {"properties", "$defs"}


def test_index_is_fresh() -> None:
    """The index on disk equals a fresh build, says how it is made, and stays small."""
    rows, faults = vet_folder(specs_root())
    assert faults == ()
    text = build.index_text(rows)
    assert Path(INDEX).read_text(encoding="utf-8") == text
    assert text.splitlines()[1] == f'"//": "{MADE_BY}",'
    assert len(text.encode()) < 150_000


def test_cards_are_fresh() -> None:
    """The cards on disk, and what indexes are made with, equal a fresh build."""
    text = build.cards_text(vetted(specs_root()).cards())
    assert Path(CARDS).read_text(encoding="utf-8") == text
    assert build.STAMP.read_text(encoding="utf-8") == build.stamp_text()
    assert text.splitlines()[0] == json.dumps({"//": MADE_BY})
    assert len(text.encode()) < 500_000


def test_schemas_are_fresh() -> None:
    """The schemas on disk equal a fresh build, one for each kind and none besides."""
    fresh = dict(build.schema_texts())
    kept = {path.name: path.read_text(encoding="utf-8") for path in schema_root().iterdir()}
    assert kept == fresh
    assert len(fresh) == len(KINDS)
    for text in fresh.values():
        assert next(iter(json.loads(text).items())) == ("$comment", build.SCHEMA_COMMENT)


def keywords(node: Any, *, names: bool = False) -> Iterator[str]:
    """Yield the keywords of a schema; what stands under properties are names."""
    if isinstance(node, list):
        for item in node:
            yield from keywords(item)
    if isinstance(node, dict):
        for key, value in node.items():
            if not names:
                yield key
            yield from keywords(value, names=not names and key in NAMED)


@pytest.mark.parametrize("name", [f"{kind.replace(' ', '-')}.json" for kind in KINDS])
def test_schemas_use_shared_keywords(name: str) -> None:
    """A schema holds only keywords that every editor knows, and is a sound schema."""
    schema = json.loads((schema_root() / name).read_text(encoding="utf-8"))
    assert set(keywords(schema)) <= SHARED
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft7Validator.check_schema(schema)


@pytest.mark.parametrize(
    "path", list(record_files(specs_root())), ids=lambda path: record_id(path, specs_root())
)
def test_specs_fit_their_schema(path: Path) -> None:
    """Every record fits the schema of its kind, and names it in its first line."""
    data, _ = load_file(path)
    name = f"{data['kind'].replace(' ', '-')}.json"
    first = path.read_text(encoding="utf-8").splitlines()[0]
    up = "../" * len(path.relative_to(specs_root()).parts)
    assert first == f"# yaml-language-server: $schema={up}schema/{name}"
    schema = json.loads((schema_root() / name).read_text(encoding="utf-8"))
    assert not list(jsonschema.Draft202012Validator(schema).iter_errors(data))
    data["unknown"] = 1
    assert list(jsonschema.Draft202012Validator(schema).iter_errors(data))


def test_command_writes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The command writes the index, the cards, what they are made with, and every schema."""
    monkeypatch.setattr(index, "INDEX", str(tmp_path / "index.json"))
    monkeypatch.setattr(own, "CARDS", str(tmp_path / "cards.jsonl"))
    monkeypatch.setattr(stamp, "__file__", str(tmp_path / "stamp.py"))
    monkeypatch.setattr(places, "schema_root", lambda: tmp_path / "schema")
    (tmp_path / "schema").mkdir()
    monkeypatch.delitem(sys.modules, "torquebook.catalogue.build")
    with pytest.raises(SystemExit) as done:
        runpy.run_module("torquebook.catalogue.build", run_name="__main__")
    assert done.value.code == 0
    assert (tmp_path / "index.json").read_bytes() == Path(INDEX).read_bytes()
    assert (tmp_path / "cards.jsonl").read_bytes() == Path(CARDS).read_bytes()
    assert (tmp_path / "stamp.py").read_text() == build.stamp_text()
    assert len(list((tmp_path / "schema").iterdir())) == len(KINDS)
    assert len(list(tmp_path.iterdir())) == 4


def test_faulty_records(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    classes_text: str,
) -> None:
    """Each fault of each record is one line, nothing is written, and the exit code is 2."""
    (tmp_path / "a.yaml").write_text(classes_text.replace('"8.8"', "8.8").replace('"2013"', "2013"))
    (tmp_path / "b.yaml").write_text("a: [\n")
    (tmp_path / "c.yaml").write_text(classes_text)
    monkeypatch.setattr(build, "specs_root", lambda: tmp_path)
    monkeypatch.setattr(build, "INDEX", str(tmp_path / "index.json"))
    assert build.build() == 2
    lines = capsys.readouterr().err.splitlines()
    assert [line.partition(".yaml:")[2].split(":")[0] for line in lines] == ["5", "10", "2"]
    assert not (tmp_path / "index.json").exists()


def test_no_folder_of_records(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without a folder of records the build says so in one line."""
    monkeypatch.setattr(build, "specs_root", lambda: tmp_path / "absent")
    assert build.build() == 2
    assert capsys.readouterr().err.endswith("no folder; name a folder of records\n")
