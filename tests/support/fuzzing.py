"""Damages real records at random, and looks at what the reader, the models and the rules do."""

from __future__ import annotations

import re
import traceback
from collections import Counter
from functools import cache
from random import Random
from typing import TYPE_CHECKING, Final, NamedTuple

from first_faults import record_files

from torquebook.catalogue.places import specs_root
from torquebook.catalogue.plaintext import decoded
from torquebook.catalogue.reading import reading
from torquebook.errors import Unreadable
from torquebook.rules.admitting import Desk, Vetting

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.records.base import Record

LARGEST: Final = 2_500  # bytes of a record to begin with: small ones are read at once
JUDGED: Final = 0.05  # the share of sound records that every rule looks at
NAME: Final = "joints/fuzz.yaml"
PUNCTUATION: Final = (
    *(
        b": ",
        b"- ",
        b"? ",
        b"\n",
        b"\n- ",
        b"\n  ",
        b"  ",
        b"{",
        b"}",
        b"[",
        b"]",
        b",",
        b"#",
        b" #",
    ),
    *(b"&a ", b"*a", b"!", b"!!str ", b"|\n", b">\n", b"'", b'"', b"%", b"@", b"`", b"<<: ", b"\\"),
    *(b"---\n", b"...\n", b"\t", b"\r", b"\0", b"\xff", b"\xc3", b"\xef\xbb\xbf", b"\xe2\x80\xa8"),
    *(b"\\u", b"\\x41", b"\\N", b"~", b"null", b"\n\n", b" #"),
)
VALUES: Final = (
    *(b"0", b"-0", b"-1", b"1.0", b"1e400", b"1e-400", b".inf", b".nan", b"8.8", b"012", b"0x1F"),
    *(b"true", b"false", b"null", b"", b'""', b'"8.8"', b"[]", b"{}", b"[[]]", b"{a: 1}", b"1e9"),
    *(b"18446744073709551616", b"9" * 31, b'"\\u202e"', "\u0663".encode(), b"1:30", b"no", b"~"),
    *(b'"1-3-2-4"', b'"M10x1.25"', b'"10 N.m + 90 deg"', b'"cross"', b"200", b"'it''s'", b"1_000"),
)
_TOKEN: Final = re.compile(rb"[\w.]+|\"[^\"\n]*\"|[^\w\s]")
_FACT: Final = re.compile(rb"(?m)^([ -]*)([a-z_]+):(?: (.+))?$")


class Tally(NamedTuple):
    """How many inputs were sound, faulty, unreadable, judged; and by place what was raised."""

    seen: Counter[str]
    raised: dict[str, str]


@cache
def seeds() -> tuple[bytes, ...]:
    """Return the small ones of our records."""
    every = (path.read_bytes() for path in record_files(specs_root()))
    return tuple(raw for raw in every if len(raw) <= LARGEST)


@cache
def facts() -> tuple[tuple[bytes, bytes], ...]:
    """Return each key of our records with each value that stands in its line."""
    every = {found[1:] for raw in seeds() for found in _FACT.findall(raw)}
    return tuple(sorted(every))


def _flipped(raw: bytes, rng: Random) -> bytes:
    at = rng.randrange(len(raw))
    return raw[:at] + bytes([raw[at] ^ 1 << rng.randrange(8)]) + raw[at + 1 :]


def _inserted(raw: bytes, rng: Random) -> bytes:
    at = rng.randrange(len(raw) + 1)
    return raw[:at] + rng.choice(PUNCTUATION) + raw[at:]


def _cut(raw: bytes, rng: Random) -> bytes:
    at = rng.randrange(len(raw))
    return raw[:at] + raw[at + rng.randint(1, 20) :]


def _spliced(raw: bytes, rng: Random) -> bytes:
    other = rng.choice(seeds())
    return raw[: rng.randrange(len(raw))] + other[rng.randrange(len(other)) :]


def _tokens_swapped(raw: bytes, rng: Random) -> bytes:
    spans = [found.span() for found in _TOKEN.finditer(raw)]
    if len(spans) < 2:
        return raw
    (a, b), (c, d) = sorted(rng.sample(spans, 2))
    return raw[:a] + raw[c:d] + raw[b:c] + raw[a:b] + raw[d:]


def _lines_moved(raw: bytes, rng: Random) -> bytes:
    lines = raw.splitlines(keepends=True)
    line = rng.choice(lines)
    if rng.random() < 0.5:
        lines.remove(line)
    lines.insert(rng.randrange(len(lines) + 1), line)
    return b"".join(lines)


def _indented(raw: bytes, rng: Random) -> bytes:
    lines = raw.splitlines(keepends=True)
    at = rng.randrange(len(lines))
    lines[at] = rng.choice((b"  " + lines[at], b"- " + lines[at], lines[at].lstrip(b" -")))
    return b"".join(lines)


def _fact_changed(raw: bytes, rng: Random, new: Callable[[bytes, bytes], bytes]) -> bytes:
    every = list(_FACT.finditer(raw))
    if not every:
        return raw
    found = rng.choice(every)
    return raw[: found.start()] + found[1] + new(found[2], found[3] or b"") + raw[found.end() :]


def _value_changed(raw: bytes, rng: Random) -> bytes:
    return _fact_changed(raw, rng, lambda key, _: key + b": " + rng.choice(VALUES))


def _value_from_another(raw: bytes, rng: Random) -> bytes:
    _, value = rng.choice(facts())
    return _fact_changed(raw, rng, lambda key, _: key + b": " + value)


def _key_from_another(raw: bytes, rng: Random) -> bytes:
    key, _ = rng.choice(facts())
    return _fact_changed(raw, rng, lambda _, value: key + b": " + value)


def _fact_from_another(raw: bytes, rng: Random) -> bytes:
    return _fact_changed(raw, rng, lambda *_: b": ".join(rng.choice(facts())))


def _fact_added(raw: bytes, rng: Random) -> bytes:
    return raw + b": ".join(rng.choice(facts())) + b"\n"


DAMAGES: Final = (
    *(_flipped, _inserted, _cut, _spliced, _tokens_swapped, _lines_moved, _indented),
    *(_value_changed, _value_from_another, _key_from_another, _fact_from_another, _fact_added),
)


def damaged(rng: Random) -> bytes:
    """Return one of our records with up to four damages."""
    raw = rng.choice(seeds())
    for _ in range(rng.choice((1, 1, 2, 4))):
        raw = rng.choice(DAMAGES)(raw, rng) or b"\n"
    return raw


def _read(raw: bytes) -> tuple[str, Record | None, str]:
    """Read an input as a contributed file is read; return what it is, its record and its text."""
    try:
        text = decoded(raw, NAME)
        read = reading(text, NAME)
    except Unreadable as fault:
        refused = fault
    else:
        assert (read.record is None) == bool(read.faults)
        lines = text.count("\n") + text.count("\r") + 1
        for each in read.faults:
            assert each.place.line <= lines
            assert each.message.isprintable(), each.message
        return ("faulty" if read.faults else "sound"), read.record, text
    assert refused.where.startswith(NAME)
    assert refused.rule
    assert refused.what.isprintable(), refused.what
    return "unreadable", None, ""


@cache
def _desk() -> Desk:
    return Desk(str(specs_root()))


def fuzz(seed: int, count: int = 1_000, judged: float = JUDGED) -> Tally:
    """Read some damaged records, and return what became of them.

    Parameters
    ----------
    seed : int
        The same one gives the same inputs.
    count : int
    judged : float
        The share of the sound ones that every rule looks at.
    """
    rng, vetting = Random(seed), Vetting()  # noqa: S311 - damage needs no secrets
    tally = Tally(Counter(), {})
    for _ in range(count):
        raw = damaged(rng)
        try:
            what, record, text = _read(raw)
            tally.seen[what] += 1
            if record is not None and rng.random() < judged:
                tally.seen["judged"] += 1
                vetting.look_at(text, NAME, _desk())
        except Exception as error:  # noqa: BLE001 - whatever is raised is what is looked for
            trace = f"{traceback.format_exc()}from {raw!r}\n"
            tally.raised.setdefault(_origin(error), trace)
    return tally


def _origin(error: BaseException) -> str:
    """Return where in the sources an exception, or what caused it, was raised first."""
    while error.__cause__:
        error = error.__cause__
    frame = traceback.extract_tb(error.__traceback__)[-1]
    return f"{type(error).__name__} at {frame.filename}:{frame.lineno}"
