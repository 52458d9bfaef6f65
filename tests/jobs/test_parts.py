"""What a job needs before it begins."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.jobs.parts import parts
from torquebook.render.parts import first_text, item_text

if TYPE_CHECKING:
    from conftest import Bench

NEW = 'reuse: {always_new: true, source: "the sheet of an example"}\n'


def test_what_is_renewed_is_ordered(bench: Bench) -> None:
    """A joint whose maker says new is ordered: count, size, class, why and by whose word."""
    bench.record("cover", NEW)
    (order,) = parts(bench.job("example/cover")).orders
    assert (order.count, order.joints) == (4, ("pump cover",))
    assert item_text(order.item) == "bolt M10 × 30, 8.8, hexagon"
    assert order.source == "the sheet of an example"


def test_like_bolts_are_one_line(bench: Bench) -> None:
    """Bolts alike in everything are put together; those of unknown length are not."""
    bench.record("cover", NEW)
    bench.record("foot", NEW, title='"Foot"')
    short = '{thread: "M10", strength_class: "8.8", head: "hexagon"}'
    for name in ("one", "two"):
        bench.record(name, NEW, title=f'"{name}"', fastener=short)
    for name in ("foot", "one", "two"):
        path = bench.folder / "joints" / "example" / f"{name}.yaml"
        path.write_text(path.read_text().replace('name: "pump cover"', f'name: "{name}"'))
    found = parts(bench.job("example/cover", "example/foot", "example/one", "example/two")).orders
    assert [(order.count, order.joints) for order in found] == [
        (8, ("pump cover", "foot")),
        (4, ("one",)),
        (4, ("two",)),
    ]


def test_a_small_part_is_ordered_without_its_bolt(bench: Bench) -> None:
    """A washer is ordered as the supplies describe it, and not named again among them."""
    plug = '{thread: "M22x1.5", kind: plug, features: ["crush washer"]}'
    supplies = 'supplies: ["copper washer, 22 mm", "engine oil"]\n'
    bench.record("plug", supplies, fastener=plug, count="1", layout=None, tighten='"45 N.m"')
    found = parts(bench.job("example/plug"))
    (washer,) = found.orders
    assert item_text(washer.item) == "copper washer, 22 mm, for M22x1.5"
    assert [supply.what for supply in found.supplies] == ["engine oil"]


def test_a_nut_is_ordered_without_its_bolt(bench: Bench) -> None:
    """A staked nut is renewed; its bolt is not."""
    staked = '{thread: "M24x1.5", nut: "10", features: ["staked nut"]}'
    bench.record("nut", fastener=staked, count="1", layout=None, tighten='"120 N.m"')
    (order,) = parts(bench.job("example/nut")).orders
    assert item_text(order.item) == "staked nut M24x1.5, 10"


def test_each_thing_of_a_joint_is_ruled_for_itself(bench: Bench) -> None:
    """The bolts' maker renews them; the washer under each is renewed whatever he says."""
    stretch = '{thread: "M10", features: ["stretch", "crush washer"], length_mm: 40}'
    bench.record("cover", NEW, fastener=stretch)
    found = parts(bench.job("example/cover")).orders
    assert [(order.count, item_text(order.item)) for order in found] == [
        (4, "bolt M10 × 40"),
        (4, "crush washer, for M10"),
    ]
    assert found[0].source == "the sheet of an example"
    assert found[1].source.startswith("common practice")


def test_nuts_that_are_renewed_with_their_bolts_are_one_order(bench: Bench) -> None:
    """The maker's word covers the nut; without it the nut is ordered as what it is."""
    locked = (
        '{thread: "M10", strength_class: "8.8", length_mm: 40, nut: "8", '
        'features: ["driveline", "locking nut", "nylon-insert nut", "castellated nut"], '
        "history: [found loose]}"
    )
    bench.record("cover", NEW, fastener=locked)
    (order,) = parts(bench.job("example/cover")).orders
    assert item_text(order.item) == "bolt M10 × 40, 8.8, with nut 8"
    bench.record("cover", fastener=locked)
    found = parts(bench.job("example/cover")).orders
    assert [item_text(order.item) for order in found] == ["nylon-insert nut M10, 8"]


def test_a_hub_nut_and_a_plug_are_called_so(bench: Bench) -> None:
    """What is adjusted is a nut; a plug is no bolt."""
    for kind, said in (("adjusting", "nut M24x1.5"), ("plug", "plug M24x1.5")):
        bolt = f'{{thread: "M24x1.5", kind: {kind}}}'
        bench.record("nut", NEW, fastener=bolt, count="1", layout=None, tighten='"120 N.m"')
        (order,) = parts(bench.job("example/nut")).orders
        assert item_text(order.item) == said


def test_a_supply_is_left_out_only_where_it_is_ordered(bench: Bench) -> None:
    """A pin that another joint has ready stays; a wire brush is no lock wire."""
    pinned = '{thread: "M10", features: ["cotter pin", "lock wire"]}'
    supplies = 'supplies: ["cotter pin", "wire brush"]\n'
    bench.record("one", supplies, fastener=pinned, name='"one"')
    bench.record("two", supplies, name='"two"')
    found = parts(bench.job("example/one", "example/two"))
    assert [item_text(order.item) for order in found.orders] == ["cotter pin, for M10"]
    assert [(supply.what, supply.joints) for supply in found.supplies] == [
        ("wire brush", ("one", "two")),
        ("cotter pin", ("two",)),
    ]


def test_all_limits_of_a_maker_count(bench: Bench) -> None:
    """Length and uses are both looked at, and what to order for one that fails is said."""
    limits = (
        'reuse: {length_new_mm: 30, length_limit_mm: 30.3, uses_allowed: 3, source: "the sheet"}\n'
    )
    bench.record("cover", limits)
    length, uses = parts(bench.job("example/cover")).firsts
    assert first_text(length).endswith(": 30 mm new; at most 30.3 mm (micrometer)")
    assert first_text(uses).endswith("3 allowed in all")
    assert length.failing == uses.failing
    assert length.failing is not None
    assert (length.failing.count, item_text(length.failing.item)) == (
        4,
        "bolt M10 × 30, 8.8, hexagon",
    )
    assert length.failing.source == "the sheet"


def test_a_look_is_a_check_too(bench: Bench) -> None:
    """A shaft's plain bolts are looked at, for no maker says more."""
    bench.record("cover", fastener='{thread: "M10", features: ["driveline"]}')
    said = [first_text(one) for one in parts(bench.job("example/cover")).firsts]
    assert "a straight edge over all crests: no gap" in said


def test_limits_and_new_parts_are_measured_first(bench: Bench) -> None:
    """A bolt with a limit, and a gate that compares a new part, come before the order."""
    limits = 'reuse: {length_new_mm: 30, length_limit_mm: 30.3, source: "the sheet"}\n'
    bench.record("cover", limits)
    gates = (
        '  - gate: {name: "new seal beside the old one", why: "it differs", tool: "caliper", '
        'measure: {what: "width", unit: mm, low: 9.9, high: 10.1}}\n'
        '  - gate: {name: "end float", why: "it wears", '
        "measure: {what: float, unit: mm, high: 0.1}}\n"
    )
    bolt, seal = parts(bench.job("example/cover", steps=gates)).firsts
    assert "at most 30.3 mm" in first_text(bolt)
    assert bolt.tool == "micrometer"
    assert first_text(seal) == "width, 9.9 to 10.1 mm (caliper)"


def test_a_job_may_need_nothing(bench: Bench) -> None:
    """Plain bolts in a joint without supplies ask for nothing."""
    bench.record("cover")
    found = parts(bench.job("example/cover"))
    assert (found.orders, found.supplies, found.firsts) == ((), (), ())
