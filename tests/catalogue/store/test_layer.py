"""Checks of what a layer knows without looking through its words."""

from __future__ import annotations

from torquebook.catalogue.places import specs_root
from torquebook.catalogue.store.layer import TOPS, Layer
from torquebook.catalogue.store.own import OwnLayer


def test_usual_folders() -> None:
    """The usual folders are those of our own records, whose plans are no records."""
    ours = {path.name for path in specs_root().iterdir() if path.is_dir()}
    assert set(TOPS) == ours - {"plans"}


def test_ids() -> None:
    """A card is found by its whole id and by what stands behind the usual folder."""
    layer: Layer = OwnLayer(print)
    for text in ("joints/brigade/flywheel", "brigade/flywheel"):
        (hit,) = layer.called(text)
        assert hit.id == "joints/brigade/flywheel"
        assert layer.current([hit])
    assert layer.called("flywheel/brigade") == []
