"""Reading: the shorthand of a service sheet as stages."""

from __future__ import annotations

import re
from typing import Final, NoReturn

from torquebook.errors import NotUnderstood
from torquebook.notation import asking
from torquebook.notation.cursor import Cursor, Value
from torquebook.notation.following import Joint, check_follows
from torquebook.notation.stages import Angle, Slacken, Stage, Torque, Wait
from torquebook.notation.writing import write
from torquebook.numerals import sheet_text
from torquebook.units import FACTORS

LONGEST: Final = 500
"""Longest text, in characters, that is taken for one list of stages."""

_SPACE: Final = re.compile(r"\s*")
_PLUS: Final = re.compile(r"\+\s*")
_END: Final = re.compile(r"\s*\.?\s*\Z")
_SEPARATOR: Final = re.compile(
    r"(?=\s*(?:[,;/+→⟶]|->|(?:and|then|plus)(?!\w))|[^\S\n]*\n)"
    r"\s*(?P<mark>[,;/→⟶]|->)?\s*(?:and(?!\w)\s*)?(?:then(?!\w)\s*)?"
    r"(?P<plus>\+|plus(?!\w))?\s*",
    re.IGNORECASE,
)
_LABEL: Final = re.compile(
    r"(?:(?:stage|step|pass)\s*(?P<named>\d{1,2})\s*(?:[:.)]|(?=\s))"
    r"|(?P<bare>\d{1,2})[.):](?=\s+(?:[\d+<>≥≤½¼¾]|max|min|slack|loos|back|wait)))\s*",
    re.IGNORECASE,
)
_SLACKEN: Final = re.compile(
    r"(?:slacken|loosen|slack|back|undo|release)(?:[ -]?off)?(?!\w)"
    r"(?:\s+(?:fully|completely)(?!\w))?"
    r"(?:\s+by(?!\w)|(?P<to>\s+to(?!\w))(?P<zero>\s+(?:zero(?!\w)|0(?![.,]?\d)))?)?\s*",
    re.IGNORECASE,
)
_WAIT: Final = re.compile(r"(?:wait|pause)(?!\w)\s*(?:for\s+)?", re.IGNORECASE)
_TIME: Final = re.compile(
    r"\s*(?:(?P<hour>h|hrs?|hours?)|(?P<minute>min|mins|minutes?)|(?P<second>s|secs?|seconds?))"
    r"(?:\.|(?!\w))",
    re.IGNORECASE,
)
_MINUTES: Final = {"hour": (60, 1), "minute": (1, 1), "second": (1, 60)}
_OPEN: Final = re.compile(r"\s*[(\[]\s*")
_CLOSE: Final = re.compile(r"\s*[)\]]")
_BARE: Final = re.compile(r"\d+(?:[.,]\d+)?\s*\Z")


def read(text: str) -> tuple[Stage, ...]:
    """Return the stages that a service sheet's shorthand stands for.

    Parameters
    ----------
    text : str
        "30 N.m, 60 N.m, +90°, +1/4 turn"; at most 500 characters.

    Raises
    ------
    NotUnderstood
        If a part of the text is no stage, or may be more than one thing.

    Examples
    --------
    >>> read("60 +10 N.m")[0].band
    Band(low=60.0, nominal=60.0, high=70.0)
    """
    if len(text) > LONGEST:
        raise NotUnderstood(f"{text[:40]}...", f"longer than {LONGEST} characters")
    return _Reader(text).stages()


class _Reader:
    """The stages of one text, as far as they are read."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.cursor = Cursor(text)
        self.done: list[Stage] = []
        self.labels = 0

    def stages(self) -> tuple[Stage, ...]:
        """Return all stages of the text."""
        self.cursor.take(_SPACE)
        label = _LABEL.match(self.text, self.cursor.at)
        joint = Joint()
        while True:
            self._label()
            joint = joint._replace(plus=self.cursor.take(_PLUS) is not None or joint.plus)
            stage = self._stage()
            check_follows(self.cursor, self.done[-1] if self.done else None, stage, joint)
            self.done.append(stage)
            if self.cursor.take(_END):
                break
            joint = self._joint()
        if label and label["bare"] and self.labels == 1:
            behind = self.text[label.end() :].strip()
            readings = (behind, f"{label['bare']}.{behind}")
            self.cursor.fail("a single numbered stage, or a decimal", readings, label.start())
        return tuple(self.done)

    def _label(self) -> None:
        """Move behind the number of a stage ("1.", "stage 2:"), which has to count up."""
        start = self.cursor.at
        if label := self.cursor.take(_LABEL):
            number = int(label["bare"] or label["named"])
            if number != self.labels + 1:
                self.cursor.fail(f"stage {number} where {self.labels + 1} belongs", at=start)
            self.labels = number

    def _joint(self) -> Joint:
        """Move to the next stage and return what stands before it."""
        place = self.cursor.at
        found = self.cursor.take(_SEPARATOR)
        if found is None:
            self.cursor.take(_SPACE)
            if not (self.labels and _LABEL.match(self.text, self.cursor.at)):
                self._run_on(place)
            return Joint()
        if _END.match(self.text, self.cursor.at):
            readings = (self.text[:place].strip(),)
            self.cursor.fail("the last stage is missing", readings, place)
        return Joint(plus=bool(found["plus"]), slash=found["mark"] == "/")

    def _run_on(self, place: int) -> NoReturn:
        """Raise that nothing parts the last stage from what follows."""
        before, behind = self.text[:place].rstrip(), self.text[place:].strip()
        last = self.done[-1]
        if isinstance(last, Torque) and _BARE.match(behind):
            readings = (f"{before}, +{behind} deg", f"{before}, {behind} {last.unit}")
            self.cursor.fail(f"{behind} has no unit", readings)
        asking.about_friction(self.cursor, self.cursor.at)
        try:
            stages = read(f"{before}, {behind}")
        except NotUnderstood as trouble:
            if trouble.readings:
                self.cursor.fail(trouble.what, trouble.readings)
            asking.about_rest(self.cursor, behind)
        one, other = (write((stage,), plain=True) for stage in (last, stages[len(self.done)]))
        self.cursor.fail(f"nothing parts {one} and {other}", (f"{before}, {behind}",))

    def _stage(self) -> Stage:
        """Return the stage that stands here."""
        start = self.cursor.at
        if slacken := self.cursor.take(_SLACKEN):
            return self._slacken(start, slacken)
        if self.cursor.take(_WAIT):
            return self._wait(start)
        last = self.done[-1] if self.done else None
        if isinstance(last, Torque):
            value = self.cursor.value(("+{} deg", f"{{}} {last.unit}"))
        else:
            value = self.cursor.value()
        if value is None:
            asking.about_words(self.cursor, start)
        return self._torque(value) if value.is_torque else self._angle(value)

    def _slacken(self, start: int, words: re.Match[str]) -> Slacken:
        """Return the turning back of which the words are read."""
        if words["zero"]:
            self.cursor.unit(start)
            return Slacken(column=start + 1)
        numbered = self.labels and _LABEL.match(self.text, self.cursor.at)
        back = None if numbered else self.cursor.value(("slacken {} deg", "slacken {} turn"))
        if back is None and not words["to"]:
            self.cursor.at = start + len(words[0].rstrip())
            return Slacken(column=start + 1)
        shown = self.text[back.start : self.cursor.at].strip() if back else ""
        if back is None or back.is_torque:
            readings = (f"slacken, {shown}",) if shown else ("slacken to 0",)
            self.cursor.fail("slacken to what is no angle", readings, start)
        if back.form != "exact" or words["to"]:
            by_angle = (f"slacken {shown}",) if back.form == "exact" else ()
            self.cursor.fail("slacken goes by one angle", by_angle, start)
        return Slacken(back.printed[0] * FACTORS[back.unit][1], start + 1)

    def _wait(self, start: int) -> Wait:
        """Return the wait of which the first word is read."""
        number = self.cursor.number()
        if number is None:
            self.cursor.fail("a wait without a time", ("wait 10 min",), start)
        time = self.cursor.take(_TIME)
        if time is None:
            shown = sheet_text(number.value)
            readings = tuple(f"wait {shown} {unit}" for unit in ("min", "h", "s"))
            self.cursor.fail("a time without a unit", readings, start)
        times, parts = _MINUTES[time.lastgroup or "minute"]
        return Wait(number.value * times / parts, start + 1)

    def _angle(self, value: Value) -> Angle:
        """Return an angle; a second angle in brackets has to be the same."""
        angle = Angle(value.unit, value.form, value.printed, value.start + 1)
        beside = self._bracket()
        if beside and (
            beside.is_torque or Angle(beside.unit, beside.form, beside.printed).band != angle.band
        ):
            self.cursor.fail("two angles that differ", at=beside.start)
        return angle

    def _torque(self, value: Value) -> Torque:
        """Return a torque, with what is printed beside it in brackets."""
        beside = self._bracket()
        value = self.cursor.limit_behind(value)
        if beside is None:
            decimals = (value.decimals, value.decimals)
            return Torque(value.unit, value.form, value.printed, None, value.start + 1, decimals)
        if not beside.is_torque:
            shown = self.text[beside.start : self.cursor.at].strip(" )]")
            readings = (f"{self.text[: beside.start].rstrip(' ([')}, +{shown}",)
            self.cursor.fail("an angle in brackets beside a torque", readings, beside.start)
        single = value.form != "range" and beside.form == "exact"
        if not single and beside.form != value.form:
            what = f"{value.form} and {beside.form} for one torque"
            self.cursor.fail(what, at=beside.start)
        return Torque(
            value.unit,
            value.form,
            value.printed,
            (beside.printed, beside.unit),
            value.start + 1,
            (value.decimals, beside.decimals),
        )

    def _bracket(self) -> Value | None:
        """Return the value in brackets that stands here, or None."""
        if not self.cursor.take(_OPEN):
            return None
        start = self.cursor.at
        value = self.cursor.value()
        if value is None:
            asking.about_friction(self.cursor, start)
            self.cursor.fail("only the same value in another unit goes in brackets", at=start)
        if not self.cursor.take(_CLOSE):
            self.cursor.fail(
                "a bracket that holds more than one value, or does not close", at=start
            )
        return value
