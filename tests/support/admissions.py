"""Admissions to write out: one mixed example, and any names and messages at all."""

from __future__ import annotations

from hypothesis import strategies as st

from torquebook.findings import Finding, Place, Severity
from torquebook.rules.admission import Admission
from torquebook.rules.registry import RULES

HOSTILE = (
    "::error file=x.yaml,line=1::all is well",
    "  ::stop-commands::x",
    "##[error]forged",
    "##[add-mask]a",
    "\n| STOP | forged | a | b | c |\n",
    "\r\n::warning::forged",
    "x.yaml:1:1: STOP forged [rule]",
    "a,line=7:b%0Ac%25%3A",
    "a|b\\|c\\\\|d",
    "`code` ``` *bold* _it_ ~~gone~~",
    "<script>alert(1)</script><!-- --><b>",
    "</testsuite>]]>&amp;&#0;",
    "[text](http://example.invalid/) ![i](x)",
    "\\](x) {0} {{1}} }",
    "@everyone #12 www.example.invalid https://example.invalid a@example.invalid",
    "\x1b[2J\x00\x07\u202e\u2028\ufffe\ud800\udcff",
    '"quoted" \'\' \\" \\n',
    "# heading",
    " leading and trailing ",
    "：：error：：wide",
    "宽" * 60,
)
ANY = st.text(st.characters(exclude_categories=()), max_size=40)
WORDS = st.lists(ANY | st.sampled_from(HOSTILE), min_size=1, max_size=3).map("".join)
NAMES = WORDS.filter(bool)
MESSAGES = WORDS.filter(str.strip)
SLUGS = st.sampled_from([*RULES, "no-such-rule"])
COUNTED = st.integers(1, 100_000)


def made(
    file: str,
    line: int = 1,
    column: int = 1,
    message: str = "wrong",
    *,
    rule: str = "nut-weaker",
    severity: Severity = Severity.STOP,
    instead: str | None = None,
) -> Finding:
    """Return a finding of a record."""
    place = Place(file, line, column)
    return Finding(rule, severity, place, "", message, "invented, for a test", instead)


def octets(name: str) -> bytes:
    """Return the bytes of a file's name, as a system holds them."""
    try:
        return name.encode("utf-8", "surrogateescape")
    except UnicodeEncodeError:
        return name.encode("utf-8", "surrogatepass")


FINDINGS = st.builds(
    made,
    NAMES,
    COUNTED,
    COUNTED,
    MESSAGES,
    rule=SLUGS,
    severity=st.sampled_from(Severity),
    instead=st.none() | WORDS,
)


@st.composite
def admissions(draw: st.DrawFn) -> Admission:
    """Draw what was found in some files, a clean one among them at times."""
    findings = draw(st.lists(FINDINGS, max_size=4))
    clean = draw(st.lists(NAMES, max_size=2))
    files = tuple(dict.fromkeys([finding.place.file for finding in findings] + clean))
    return Admission(files, tuple(sorted(findings, key=lambda f: (f.place, f.rule))))


PUMP, OIL, ODD = "specs/joints/brigade/pump-cover.yaml", "specs/friction/oil.yaml", "odd|<b>\n.yaml"
MIXED = Admission(
    (PUMP, OIL, "specs/friction/dry.yaml", ODD),
    (
        made(ODD, 2, 1, "`mu` [is] {a|b} <i>\n::error::x", rule="none", severity=Severity.NOTE),
        made(
            OIL, 6, 12, "mu_thread: low 0.16 lies above high 0.08",
            rule="low-above-high", instead="low 0.08, high 0.16",
        ),
        made(
            PUMP, 7, 10, "20 carries no unit", rule="unit-unsaid", instead='"20 N.m", in quotes',
        ),
        made(
            PUMP, 14, 1, "the order leaves out position 4 of 4, and 20 N·m is said for all of them",
            rule="position-missed", severity=Severity.ASK, instead="1-3-2-4",
        ),
    ),
)  # fmt: skip
