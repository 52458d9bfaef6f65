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


def test_sizes_are_kept_apart_by_what_is_known(bench: Bench) -> None:
    """A flange of 16 mm has no other width; a head that is not stated is only assumed."""
    bench.record("cover")
    bench.record("flange", fastener='{thread: "M10", head: "flange"}', name='"flange"')
    bench.record("bare", fastener='{thread: "M10"}', name='"bare"')
    names = ("example/cover", "example/flange", "example/bare")
    found = tools(bench.job(*names), bench.book()).spanners
    assert [(one.size_mm, one.other_mm, one.assumed, one.joints) for one in found] == [
        (16, (17,), False, ("pump cover",)),
        (16, (), False, ("flange",)),
        (16, (17,), True, ("bare",)),
    ]


def test_a_socket_fits_the_drives_of_its_wrenches(bench: Bench) -> None:
    """18 N·m and 44 N·m stand on wrenches of 1/4 and 3/8 in."""
    bench.record("cover", tighten='"18 N.m, 44 N.m"')
    (spanner,) = tools(bench.job("example/cover"), bench.book()).spanners
    assert set(spanner.drives) == {"1/4 in", "3/8 in"}


def test_a_nut_is_held(bench: Bench) -> None:
    """A bolt with a nut needs a spanner at its other end, in either width."""
    bench.record("cover", into='"nut"')
    socket, spanner = tools(bench.job("example/cover"), bench.book()).spanners
    assert (socket.kind, spanner.kind) == ("socket", "spanner")
    assert (spanner.size_mm, spanner.other_mm, spanner.drives) == (16, (17,), ())


def test_a_head_of_its_own_is_measured(bench: Bench) -> None:
    """No table says how wide a plug is; a pipe's nut needs a crow's foot as well."""
    for kind, feet in (("plug", ()), ("pipe nut", ("pump cover",))):
        bench.record("cover", fastener=f'{{thread: "M10", kind: {kind}}}')
        found = tools(bench.job("example/cover"), bench.book())
        assert (found.spanners, found.unsized) == ((), ("pump cover",))
        assert found.crow_feet == feet


def test_a_head_without_a_width_is_measured(bench: Bench) -> None:
    """The standard of this flange screw lists a bearing face, but no width."""
    bench.record("cover", fastener='{thread: "M10", head: "ISO 4162"}')
    found = tools(bench.job("example/cover"), bench.book())
    assert (found.spanners, found.unsized) == ((), ("pump cover",))


def test_what_fasteners_are_measured_with_is_a_gauge(bench: Bench) -> None:
    """A limit of length needs a micrometer, named once for a joint."""
    limits = (
        'reuse: {length_new_mm: 30, length_limit_mm: 30.3, uses_allowed: 3, source: "the sheet"}\n'
    )
    bench.record("cover", limits, fastener='{thread: "M10", features: ["driveline"]}')
    gate = '  - gate: {name: "bearing", why: "it wears", question: "Does it turn?"}\n'
    found = tools(bench.job("example/cover", steps=gate), bench.book())
    assert found.gauges == {"micrometer": ("pump cover",)}


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
