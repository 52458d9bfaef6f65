"""One line on the command line: ``M10x1.25 10.9 60 N.m + 90 deg friction=oiled``."""

from __future__ import annotations

import difflib
import re
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.findings import Place
from torquebook.notation.asking import BY_HAND, CONDITION
from torquebook.plans.cells import plan_line
from torquebook.plans.intake import CONTROL
from torquebook.plans.model import COLUMNS, Cell
from torquebook.plans.table import column_name
from torquebook.unitnames import unit_at

if TYPE_CHECKING:
    from torquebook.plans.model import PlanLine

#: What stands for a file's name in a line's places.
NAME: Final = "command line"
LONGEST: Final = 2000

_EXAMPLE: Final = 'such as "M10x1.25 10.9 60 N.m + 90 deg friction=oiled"'
_PAIR: Final = re.compile(r"([^\W\d][\w-]*)\s?=\s?(\"[^\"]*\"|'[^']*'|\S*)")
_AFTER: Final = r"(?![\w°/]|[.,][0-9])"
_THREADS: Final = tuple(
    re.compile(rf"(?<![\w./+±-]){form}{_AFTER}", re.IGNORECASE)
    for form in (
        r"M[0-9]{1,3}(?:[.,][0-9]+)?(?: ?[x×*] ?[0-9]+[.,][0-9]+|[x×*-][0-9]+)?",
        r"(?:[0-9] |[0-9]-)?[0-9]{1,2}/[0-9]{1,2} ?- ?[0-9]{1,2}(?: ?UN[A-Z]{0,3}(?:-[0-9][AB])?)?",
        r"(?:#|no\. ?)?[0-9]{1,2} ?- ?[0-9]{1,2} ?UN[A-Z]{0,3}(?:-[0-9][AB])?",
        r"(?:#|no\. ?)[0-9]{1,2}-[0-9]{1,2}",
        r"(?:[0-9] |[0-9]-)?[0-9]{1,2}/[0-9]{1,2} ?UN[A-Z]{0,3}",
        r"[0-9]{1,2}/[0-9]{1,2}(?=\s+(?:[0-9]|SAE|gr|class)|\s*$)",
    )
)
_COUNTS: Final = (
    re.compile(r"(?<!\S)[x×]([0-9]{1,6})(?!\S)", re.IGNORECASE),
    re.compile(r"^ *([0-9]{1,6})[x×](?!\S)", re.IGNORECASE),
    re.compile(r"(?<!\S)([0-9]{1,6}) ?off(?!\S)", re.IGNORECASE),
)
_ALONE: Final = r"(?=\s+(?:[0-9]|max|min|stage|slack|loose|[≥≤<>])|\s*$)"
_CLASSES: Final = (
    re.compile(
        r"(?<!\S)SAE(?: ?J429)?(?: ?(?:grade|gr\.?))? ?[0-9](?:\.[0-9])?(?!\S)", re.IGNORECASE
    ),
    re.compile(r"(?<!\S)(?:grade|gr\.?|(?:property )?class) ?[0-9A]\S*(?!\S)", re.IGNORECASE),
    re.compile(r"(?<!\S)[ACF][0-9]-[0-9]{2,3}L?(?!\S)", re.IGNORECASE),
    re.compile(rf"(?<!\S)(?<![-+±/] )(?:[3-9]|1[0-9])\.[5-9]{_ALONE}", re.IGNORECASE),
)
_AT_THREAD: Final = re.compile(r"[ ,]*-?((?:[3-9]|1[0-9])\.[5-9])(?![\w/°.]|,[0-9])")
"""A class as it stands behind a thread: "M10 8.8", "M10-8.8"."""
_BEFORE_THREAD: Final = re.compile(r"(?<!\S)(?<![-+±/] )((?:[3-9]|1[0-9])\.[5-9]),? *$")
_LISTED: Final = frozenset(
    ["3.6", "4.6", "4.8", "5.6", "5.8", "6.6", "6.8", "6.9", "8.8", "9.8", "10.9", "12.9"]
)
"""ISO 898-1, the withdrawn ones too: what else looks like a class may well begin a range."""
_TO: Final = re.compile(r" *(?:[-‐‑‒–—−]|to(?!\w)|\.{2,3}|…) *(?=[0-9.,])", re.IGNORECASE)
_SPREAD: Final = re.compile(r" *(?:[-‐‑‒–—−±…]|to(?!\w)|\.\.|\+ ?/|\+ ?[0-9.,]+ ?%?[ /]*[-−–])")
_TIGHTEN: Final = re.compile(
    r"[-−–] ?[0-9]|[0-9.½¼¾+±≥≤<>#]|(?:max|min|stage|step|slack|loose|back|wait|then|free)\w*"
    rf"|(?<!\w){BY_HAND.pattern}",
    re.IGNORECASE,
)
#: Metric pitches are at most about an eighth of the diameter, from M8 up.
_PITCH_SHARE: Final = 8


class _Part(NamedTuple):
    """A part of the line that has been understood: where it starts, and its text."""

    start: int
    text: str


def one_line(text: str) -> PlanLine:
    """Return the plan's line that one line of text gives.

    Parameters
    ----------
    text : str
        As typed; line breaks count as spaces.

    Returns
    -------
    PlanLine

    Raises
    ------
    Unreadable
        If nothing says how to tighten, a column is unknown or given twice, or a word has no
        place in a line.
    """
    odd = CONTROL.search(text)
    if odd:
        raise _refusal(odd.start(), f"the character U+{ord(odd[0]):04X}", "take it out")
    if len(text) > LONGEST:
        raise _refusal(0, f"{len(text)} characters are too many for one line", "write a file")
    line = _Line(re.sub(r"\s", " ", text))
    line.take_pairs()
    line.take("thread", _THREADS)
    line.refuse_doubtful_count()
    line.take("count", _COUNTS)
    line.take_class_at_thread()
    line.take("class", _CLASSES)
    line.take_tighten()
    return plan_line(
        Place(NAME, 1),
        {
            column: Cell(part.text, Place(NAME, 1, part.start + 1))
            for column, part in sorted(line.parts.items(), key=lambda item: item[1].start)
        },
        {},
    )


def _refusal(offset: int, what: str, right: str) -> Unreadable:
    """Return the refusal of what stands at an offset in the line."""
    return Unreadable(f"{NAME}:1:{offset + 1}", what, right)


class _Line:
    """The line; what has been understood is blanked out, so that offsets stay."""

    def __init__(self, text: str) -> None:
        self.rest = text
        self.parts: dict[str, _Part] = {}
        self.ends: dict[int, str] = {}
        self.thread: tuple[int, int] | None = None

    def _blank(self, start: int, end: int) -> None:
        self.rest = self.rest[:start] + " " * (end - start) + self.rest[end:]

    def take_pairs(self) -> None:
        """Take out every ``column=value``."""
        for match in _PAIR.finditer(self.rest):
            column = column_name(match[1])
            if column not in COLUMNS:
                near = difflib.get_close_matches(column.casefold(), COLUMNS, 1)
                right = f"write {near[0]}=" if near else f"the columns are {', '.join(COLUMNS)}"
                raise _refusal(match.start(), f'there is no column "{match[1]}"', right)
            if column in self.parts:
                raise _refusal(match.start(), f'"{column}" is given twice', "give it once")
            value = match[2]
            quoted = value[:1] in {'"', "'"} and value[-1:] == value[:1] and len(value) > 1
            if value.strip("\"' "):
                typed = value[1:-1] if quoted else value
                self.parts[column] = _Part(match.start(2) + quoted, typed.strip())
                self.ends[match.end()] = column
                if column == "thread":
                    self.thread = match.span()
            self._blank(*match.span())

    def take(self, column: str, forms: tuple[re.Pattern[str], ...]) -> None:
        """Take out what has one of a column's forms; the first form that is there counts."""
        for form in forms:
            match = form.search(self.rest)
            if match and column not in self.parts:
                group = match.lastindex or 0
                self.parts[column] = _Part(match.start(group), match[group].strip())
                if column == "thread":
                    self.thread = match.span()
                self._blank(*match.span())

    def take_class_at_thread(self) -> None:
        """Take out a class that stands beside the thread, whatever follows but a unit."""
        if self.thread is None or "class" in self.parts:
            return
        start, end = self.thread
        match = _AT_THREAD.match(self.rest, end)
        if match:
            self._refuse_range(match)
            if _SPREAD.match(self.rest, match.end()) or self._unit_at(match.end()):
                return
        else:
            match = _BEFORE_THREAD.search(self.rest[:start])
        if match:
            self.parts["class"] = _Part(match.start(1), match[1])
            self._blank(*match.span())

    def _refuse_range(self, match: re.Match[str]) -> None:
        """Refuse "M10 8.8-45 N.m": it may begin with a class or be a range."""
        to = _TO.match(self.rest, match.end())
        if to and match[1] in _LISTED:
            behind = " ".join(self.rest[to.end() :].split())
            what = f'"{match[1]}" may be the class or the low end of a range'
            right = f'write tighten="{match[1]}-{behind}", or {match[1]} {behind}'
            raise _refusal(match.start(1), what, right)

    def _unit_at(self, offset: int) -> bool:
        """Return whether a unit stands behind a number, a doubtful one too."""
        rest = self.rest[offset:]
        try:
            return unit_at(self.rest, offset + len(rest) - len(rest.lstrip())) is not None
        except NotUnderstood:
            return True

    def refuse_doubtful_count(self) -> None:
        """Refuse ``M10 x1``: it may be a pitch of 1 mm or one bolt."""
        thread = self.parts.get("thread")
        size = re.fullmatch(r"M([0-9]+)", thread.text if thread else "", re.IGNORECASE)
        if not thread or not size:
            return
        end = thread.start + len(thread.text)
        match = re.match(r" ?[x×] ?([0-9])(?!\S)", self.rest[end:], re.IGNORECASE)
        if match and int(match[1]) * _PITCH_SHARE <= int(size[1]):
            pitch, count = f"{thread.text}x{match[1]}", f"{match[1]} off"
            what = f'"{thread.text}{match[0]}" may be a pitch or a count'
            raise _refusal(thread.start, what, f"write {pitch}, or {thread.text} {count}")

    def take_tighten(self) -> None:
        """Take the rest, which must be the shorthand of ``notation``."""
        start = len(self.rest) - len(self.rest.lstrip())
        words = self.rest.strip()
        if "tighten" in self.parts:
            if words:
                what = f'"{words}" has no place beside tighten='
                raise _refusal(start, what, f"write column=value, {_EXAMPLE}")
            return
        self._refuse_stray_value()
        found = _TIGHTEN.search(words)
        before = (words[: found.start()] if found else words).strip(" ,;:")
        if before:
            right = f'write joint="{before}" if it is the name, or {_EXAMPLE}'
            if before in {"x", "X", "×"}:
                right = "write a count as x4, a pitch as M10x1.25"
            if CONDITION.match(before):
                right = f'write friction="{before}"'
            raise _refusal(start, f'"{before}" is not understood', right)
        if not found:
            raise _refusal(0, "nothing says how to tighten", f"write it {_EXAMPLE}")
        self.parts["tighten"] = _Part(
            start + found.start(), re.sub(r" {2,}", " ", words[found.start() :])
        )

    def _refuse_stray_value(self) -> None:
        """Refuse a word behind ``column=value``: most likely the value goes on."""
        for end, column in self.ends.items():
            word = re.match(r" ([^\W\d_]+)", self.rest[end:])
            if word and not _TIGHTEN.match(word[1]):
                right = f'write {column}="{self.parts[column].text} {word[1]}" if it belongs there'
                raise _refusal(end + 1, f'"{word[1]}" is not understood', right)
