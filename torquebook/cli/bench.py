"""``torquebook bench``: my wrenches, adapters, unit, sources and book folders."""

from __future__ import annotations

import sys
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
what stands in brackets, ends a list, or leaves out the thing that it is asked of. A wrench of
a name that is known takes its place. Each one is kept as soon as all is said of it."""


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
        bench = _Asker(path, plain=plain).bench(bench)
    _keep(path, bench)
    terminal.answer(state(bench, path), render, as_json=as_json, plain=plain)


def _keep(path: str, bench: Bench) -> None:
    if bench != read_bench(path):
        write_bench(path, bench)


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
    """Asks on standard error, again and again until the answer can be read.

    Parameters
    ----------
    path : str
        Where a wrench or an adapter is kept as soon as all is said of it.
    plain : bool
        Whether to keep to ASCII.
    """

    def __init__(self, path: str, *, plain: bool) -> None:
        self.path = path
        self.plain = plain
        self.kept: list[str] = []

    def ask(self, what: str, read: Callable[[str], T], known: str = "") -> T:
        """Return what an answer means; an empty one is what was known."""
        while True:
            text = self._typed(what, known)
            try:
                return read(text)
            except NotUnderstood as trouble:
                terminal.complain(str(trouble), plain=self.plain)

    def _typed(self, what: str, known: str) -> str:
        """Return an answer; it is shown here where no terminal shows it."""
        said = terminal.paper(plain=self.plain).said
        echoes = not sys.stdin.isatty()
        try:
            text: str = click.prompt(said(what), default=known, show_default=bool(known), err=True)
        except click.Abort:
            click.echo(err=True)
            raise self._ended() from None
        if echoes:
            click.echo(said(text), err=True)
        return text

    def _ended(self) -> Unreadable:
        right = "nothing of them is kept; torquebook bench --ask begins again"
        if self.kept:
            right = f"kept: {', '.join(self.kept)}; torquebook bench --ask asks for the rest"
        return Unreadable("the answers", "ended before all was asked", right)

    def _keep(self, bench: Bench, name: str) -> Bench:
        _keep(self.path, bench)
        self.kept.append(name)
        return bench

    def bench(self, known: Bench) -> Bench:
        """Ask for everything; what is known stays, and what is complete is kept at once."""
        unit = "Unit for torques, such as N.m (empty: as the sheet has it)"
        bench = known._replace(unit=self.ask(unit, asking.unit, known.unit))
        wrenches = {one.name: one for one in known.wrenches}
        while name := self.ask("A wrench's name (empty: no more)", asking.named):
            if wrench := self._wrench(name):
                wrenches[name] = wrench
                bench = self._keep(bench._replace(wrenches=tuple(wrenches.values())), name)
        adapters = {one.name: one for one in known.adapters}
        while name := self.ask("An adapter's name (empty: no more)", asking.named):
            length = "  from the square drive to the bolt, such as 4 in (empty: leave it out)"
            if extension_mm := self.ask(length, _or_none(asking.length_mm)):
                adapters[name] = Adapter(name, extension_mm)
                bench = self._keep(bench._replace(adapters=tuple(adapters.values())), name)
        prefer = self._list("A source that outranks others (empty: no more)", known.prefer)
        books = self._list("A folder of your own records (empty: no more)", known.books)
        return bench._replace(prefer=prefer, books=books)

    def _wrench(self, name: str) -> OwnWrench | None:
        """Return a wrench; None if it is left out after all."""
        scale = "  its scale, such as 20-100 N.m (empty: leave it out)"
        if not (found := self.ask(scale, _or_none(asking.scale))):
            return None
        low, high, unit = found
        step = self.ask("  its smallest step, in that unit", asking.number, "1")
        off = "  how far it may be off (ISO 6789: 4 % above 10 N·m)"
        deviation = self.ask(off, asking.deviation, "4 %")
        drive = self.ask("  its square drive", asking.drive, "1/2 in")
        day = self.ask("  calibrated on, such as 2026-05-31 (empty: not known)", asking.day)
        uses = self.ask("  uses since then", asking.whole, "0")
        return OwnWrench(name, low, high, step, unit, deviation, drive, day, uses)

    def _list(self, what: str, known: tuple[str, ...]) -> tuple[str, ...]:
        found = list(known)
        while text := self.ask(what, str.strip):
            found.append(text)
        return tuple(dict.fromkeys(found))


def _or_none(read: Callable[[str], T]) -> Callable[[str], T | None]:
    """Let an empty answer mean nothing."""
    return lambda text: read(text) if text.strip() else None
