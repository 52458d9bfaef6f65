"""What a job is tightened with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.jobs.tools import tools

if TYPE_CHECKING:
    from conftest import Bench


def test_every_stage_stands_on_a_wrench(bench: Bench) -> None:
    """Both stages of the cover are set on a wrench of the book that covers them."""
    bench.record("cover")
    found = tools(bench.job("example/cover"), bench.book())
    settings = [one for use in found.wrenches for one in use.settings]
    assert {one.stage.shown for one in settings} == {"20 N·m", "44 N·m"}
    assert found.uncovered == ()


def test_a_stage_that_no_wrench_covers_is_named(bench: Bench) -> None:
    """A torque beyond every scale is listed, with the joint."""
    bench.record("cover", fastener='{thread: "M36", strength_class: "8.8"}', tighten='"2000 N.m"')
    found = tools(bench.job("example/cover"), bench.book())
    assert [(one.joint, one.stage.shown) for one in found.uncovered] == [("pump cover", "2000 N·m")]


def test_both_widths_of_an_m10_are_listed(bench: Bench) -> None:
    """M10 hexagons are 16 mm across flats by ISO 4014 and 17 by DIN 931."""
    bench.record("cover")
    (spanner,) = tools(bench.job("example/cover"), bench.book()).spanners
    assert (spanner.kind, spanner.size_mm, spanner.other_mm) == ("socket", 16, (17,))


def test_a_socket_head_takes_a_key(bench: Bench) -> None:
    """M10 socket heads take a key of 8 mm (ISO 4762)."""
    bench.record("cover", fastener='{thread: "M10", strength_class: "8.8", head: "socket"}')
    (spanner,) = tools(bench.job("example/cover"), bench.book()).spanners
    assert (spanner.kind, spanner.size_mm) == ("key", 8)


def test_a_size_without_a_table_is_named(bench: Bench) -> None:
    """Inch sizes have no heads in the book, and the answer says so."""
    bench.record("cover", fastener='{thread: "3/8-16", strength_class: "SAE 5"}')
    found = tools(bench.job("example/cover"), bench.book())
    assert (found.spanners, found.unsized) == ((), ("pump cover",))


def test_gauges_are_listed_with_what_needs_them(bench: Bench) -> None:
    """Gates name their tools, and an angle stage needs a gauge for it."""
    bench.record("cover", tighten='"20 N.m + 90 deg"')
    gates = (
        '  - gate: {name: "end float", why: "it wears", tool: "dial gauge", '
        "measure: {what: float, unit: mm, high: 0.1}}\n"
    )
    found = tools(bench.job("example/cover", steps=gates), bench.book())
    assert found.gauges == {"dial gauge": ("end float",), "angle gauge": ("pump cover",)}
