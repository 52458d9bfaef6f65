"""What ``look`` answers: the card that was meant, and a list of the others.

Annotations are not postponed here, as in ``sizes``.
"""

from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.catalogue.finding import Finder
from torquebook.catalogue.store.hits import Found
from torquebook.catalogue.store.own import OwnLayer

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.store.kept import Say
    from torquebook.catalogue.store.layer import Layer
    from torquebook.catalogue.store.writing import Card

_HAIR: Final = 1e-6


class Setting(NamedTuple):
    """What to set for one stage.

    Parameters
    ----------
    value : float
        In the unit of the wrench's scale.
    unit : str
    fit : str
        Empty where the wrench covers it; ``below`` or ``above`` its range.
    """

    value: float
    unit: str
    fit: str


class Looked(NamedTuple):
    """The answer.

    Parameters
    ----------
    found : Found
    card : dict or None
        The one card, where one was named or only one was found.
    wrench : dict or None
        The card of the wrench that a joint names, or of one on the user's bench.
    settings : tuple of Setting or None
        For each stage of a joint; None where nothing is set, or no wrench is known.
    """

    found: Found
    card: dict[str, Any] | None
    wrench: dict[str, Any] | None
    settings: tuple[Setting | None, ...]


def open_layers(folders: "Sequence[str]", say: "Say") -> "list[Layer]":
    """Open the user's folders and our own book, the topmost first.

    Raises
    ------
    Unreadable
        If a folder or a record in it cannot be read.
    """
    own: list[Layer] = [OwnLayer(say)]
    if not folders:
        return own
    from torquebook.catalogue.store.folder import open_folders  # noqa: PLC0415 - most have none

    return [*open_folders(folders, say), *own]


def looked(
    layers: "Sequence[Layer]", text: str, kind: str = "", mine: "Sequence[Card]" = ()
) -> Looked:
    """Return what answers to a text.

    Parameters
    ----------
    layers : sequence of Layer
    text : str
        An id, a name, or words.
    kind : str
        To look for no other kind; empty for all.
    mine : sequence of dict
        Wrenches of the user's bench, as cards; the one that covers most of a joint's stages
        takes the place of the one that the joint names.

    Raises
    ------
    NotUnderstood
        If there is nothing, with what comes near.
    """
    finder = Finder(layers, kind)
    found = finder.find(text)
    if not (found.named or found.total == 1):
        return Looked(found, None, None, ())
    card = found.cards[0]
    stages = card["facts"].get("stages", ())
    named = card["facts"].get("wrench") if card["kind"] == "joint" else None
    wrench = finder.one("wrench", named) if named else None
    if mine and card["kind"] == "joint":
        wrench = max(mine, key=lambda one: _covered(stages, one))
    return Looked(found, card, wrench, tuple(_setting(stage, wrench) for stage in stages))


def _covered(stages: "Sequence[dict[str, Any]]", wrench: "Card") -> int:
    """Return how many torque stages a wrench can be set to."""
    settings = (_setting(stage, wrench) for stage in stages)
    return sum(setting is not None and not setting.fit for setting in settings)


def _setting(stage: dict[str, Any], wrench: "Card | None") -> Setting | None:
    """Return what to set for a stage, None where it is no torque or there is no wrench."""
    if wrench is None or stage["nm"] is None:
        return None
    facts = wrench["facts"]
    value, unit = stage["value"], facts["unit"]
    if unit != stage["unit"]:
        from torquebook import units  # noqa: PLC0415 - costs the start, and most need none

        value = units.convert(units.Quantity(stage["nm"], "N.m"), unit).value
    if value < facts["low"] * (1 - _HAIR):
        return Setting(value, unit, "below")
    return Setting(value, unit, "above" if value > facts["high"] * (1 + _HAIR) else "")
