"""Checks of finding whole records by id and by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue import library as module
from torquebook.catalogue.library import Library
from torquebook.catalogue.places import specs_root
from torquebook.errors import NotUnderstood, Unreadable
from torquebook.records.joint import JointRecord

if TYPE_CHECKING:
    from pathlib import Path

FLYWHEEL = "joints/brigade/flywheel"
JOINT = (specs_root() / f"{FLYWHEEL}.yaml").read_text(encoding="utf-8")


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Return the files of the records that are read."""
    files: list[Path] = []
    real = module.hold

    def noted(path: Path, *others: type[JointRecord] | str) -> object:
        files.append(path)
        return real(path, *others)  # type: ignore[arg-type]

    monkeypatch.setattr(module, "hold", noted)
    return files


@pytest.mark.parametrize(
    "text", ["joints/brigade/flyweel", "brigade/flyweel", "joints/brigad/flywheel"]
)
def test_an_id_that_leads_nowhere_reads_no_record(text: str, read: list[Path]) -> None:
    """The ids that come near are taken from the names of the files."""
    with pytest.raises(NotUnderstood) as caught:
        Library().named("joints", JointRecord, text)
    assert caught.value.readings[0] == FLYWHEEL
    assert read == []


@pytest.mark.parametrize("text", ["brigade/flywheel", FLYWHEEL])
def test_a_record_of_an_id_is_read_alone(text: str, read: list[Path]) -> None:
    """With or without the shelf."""
    assert Library().named("joints", JointRecord, text).id == FLYWHEEL
    assert read == [specs_root() / f"{FLYWHEEL}.yaml"]


def test_a_name_may_hold_a_slash(tmp_path: Path) -> None:
    """What begins with no folder of the shelf may be a name, and is looked for."""
    path = tmp_path / "joints" / "a.yaml"
    path.parent.mkdir()
    text = JOINT.replace('name: "flywheel to crankshaft"', 'name: "inlet/outlet"')
    assert text != JOINT
    path.write_text(text, encoding="utf-8")
    held = Library([tmp_path]).named("joints", JointRecord, "Inlet/Outlet")
    assert (held.id, held.path) == ("joints/a", path)


@pytest.mark.parametrize("lenient", [True, False])
def test_broken_records(tmp_path: Path, *, lenient: bool) -> None:
    """Where somebody else reports them they are passed over, else the first fault is raised."""
    path = tmp_path / "joints" / "a.yaml"
    path.parent.mkdir()
    path.write_text("kind: joint\n", encoding="utf-8")
    library = Library([tmp_path], lenient=lenient)
    with pytest.raises(NotUnderstood if lenient else Unreadable):
        library.named("joints", JointRecord, "no such joint")
    with pytest.raises(NotUnderstood) as caught:
        library.named("joints", JointRecord, "joints/brigade/flyweel")
    assert caught.value.readings[0] == FLYWHEEL
