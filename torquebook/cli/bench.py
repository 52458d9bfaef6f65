"""``torquebook bench``: my wrenches, adapters, unit, sources and book folders."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import click

from torquebook.answers import asking
from torquebook.answers.benches import state
from torquebook.catalogue.bench import Adapter, Bench, OwnWrench, read_bench, write_bench
from torquebook.cli.command import bench_path
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.errors import NotUnderstood, Unreadable
from torquebook.render import bench as render
from torquebook.render import terminal

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

T = TypeVar("T")
HELP = f"""{HELPS["bench"]}

Without an option it shows what is known, and asks where nothing is. An empty answer keeps
what stands in brackets, or ends a list. A wrench of a name that is known takes its place."""


@make(help=HELP, examples=("bench", "bench --ask", 'bench --forget "click 20-100"'))
@click.option("--ask", is_flag=True, help="Ask again, and add to what is known.")
@click.option("--forget", multiple=True, metavar="NAME", help="Take a wrench or adapter out.")
def command(forget: Sequence[str], *, ask: bool, as_json: bool, plain: bool) -> None:
    """Read, ask, write, show."""
    path = bench_path()
    bench = read_bench(path)
    if forget:
        bench = _without(bench, forget)
    if ask or (bench == Bench() and not forget):
        bench = _Asker(plain=plain).bench(bench)
    if bench != read_bench(path):
        write_bench(path, bench)
    terminal.answer(state(bench, path), render, as_json=as_json, plain=plain)


def _without(bench: Bench, names: Sequence[str]) -> Bench:
    known = [*(one.name for one in bench.wrenches), *(one.name for one in bench.adapters)]
    for name in names:
        if name not in known:
            raise NotUnderstood(name, "nothing of that name is on the bench", tuple(known))
    return bench._replace(
        wrenches=tuple(one for one in bench.wrenches if one.name not in names),
        adapters=tuple(one for one in bench.adapters if one.name not in names),
    )


class _Asker:
    """Asks on standard error, again and again until the answer can be read."""

    def __init__(self, *, plain: bool) -> None:
        self.plain = plain

    def ask(self, what: str, read: Callable[[str], T], known: str = "") -> T:
        """Return what an answer means; an empty one is what was known."""
        while True:
            try:
                text = click.prompt(what, default=known, show_default=bool(known), err=True)
            except click.Abort:
                right = "answer each question, or press Enter"
                raise Unreadable("the answers", "end before all is asked", right) from None
            try:
                return read(text)
            except NotUnderstood as trouble:
                terminal.complain(str(trouble), plain=self.plain)

    def bench(self, known: Bench) -> Bench:
        """Ask for everything; what is known stays."""
        unit = "Unit for torques, such as N.m (empty: as the sheet has it)"
        wanted = self.ask(unit, asking.unit, known.unit)
        wrenches = {one.name: one for one in known.wrenches}
        while name := self.ask("A wrench's name (empty: no more)", asking.named):
            wrenches[name] = self._wrench(name)
        adapters = {one.name: one for one in known.adapters}
        while name := self.ask("An adapter's name (empty: no more)", asking.named):
            length = "  from the square drive to the bolt, such as 4 in"
            adapters[name] = Adapter(name, self.ask(length, asking.length_mm))
        prefer = self._list("A source that outranks others (empty: no more)", known.prefer)
        books = self._list("A folder of your own records (empty: no more)", known.books)
        return Bench(tuple(wrenches.values()), tuple(adapters.values()), wanted, prefer, books)

    def _wrench(self, name: str) -> OwnWrench:
        low, high, unit = self.ask("  its scale, such as 20-100 N.m", asking.scale)
        step = self.ask("  its smallest step, in that unit", asking.number, "1")
        off = "  how far it may be off (ISO 6789: 4 % above 10 N·m)"
        deviation = self.ask(off, asking.deviation, "4 %")
        drive = self.ask("  its square drive", asking.named, "1/2 in")
        day = self.ask("  calibrated on, such as 2026-05-31 (empty: not known)", asking.day)
        uses = self.ask("  uses since then", asking.whole, "0")
        return OwnWrench(name, low, high, step, unit, deviation, drive, day, uses)

    def _list(self, what: str, known: tuple[str, ...]) -> tuple[str, ...]:
        found = list(known)
        while text := self.ask(what, str.strip):
            found.append(text)
        return tuple(dict.fromkeys(found))
