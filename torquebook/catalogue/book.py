"""The book: what is known of threads, classes, heads, friction and printed tables.

It reads the generated index, so that a question is answered without a parser, a model or
a validator. Folders of the user's own records are laid over it: their records come first.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from torquebook.catalogue import lookup
from torquebook.catalogue.index import MAKERS, join, read_index
from torquebook.errors import NotUnderstood

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from torquebook.catalogue.index import Rows
    from torquebook.catalogue.shelves import (
        Entry,
        Friction,
        HeadSize,
        Hole,
        Material,
        NutClass,
        Pattern,
        PrintedRow,
        PrintedTable,
        StrengthClass,
        Thread,
        Wrench,
    )
    from torquebook.catalogue.store.kept import Say

UNSAID = "unsaid"
HEXAGON = "hexagon"
_NUT = r"(?:(?:hex(?:agon)? )?nut )?(?:(?:property )?class )?(0?\d{1,2})"
_SLACK_MM = 1e-6


class Book:
    """What is known, by shelf. Open one with :meth:`open`.

    Parameters
    ----------
    layers : sequence of callable
        From the top one down; each gives a shelf's rows as they stand in its index.
    folders : sequence of str or Path
        The user's own that lie over them, the topmost first.
    """

    def __init__(
        self, layers: Sequence[Callable[[str], list[list[Any]]]], folders: Sequence[str | Path] = ()
    ) -> None:
        self._folders = tuple(folders)
        self._layers = tuple(layers)
        self._shelves: dict[str, tuple[Any, ...]] = {}

    @classmethod
    def open(
        cls,
        folders: Sequence[str | Path] = (),
        say: Say | None = None,
        own: Rows | None = None,
    ) -> Book:
        """Open our own book, with folders of the user's records laid over it.

        Parameters
        ----------
        folders : sequence of str or Path
            The topmost first.
        say : callable, optional
            Takes a word where the index of a folder had to be made anew.
        own : dict, optional
            Rows of what the user has on his bench, laid over all.

        Raises
        ------
        Unreadable
            If a folder or a record in it cannot be read.
        """
        ours = read_index()
        layers: list[Callable[[str], list[list[Any]]]] = []
        if own:
            layers.append(lambda shelf: own.get(shelf, []))
        if folders:
            from torquebook.catalogue.store.folder import open_folders  # noqa: PLC0415 - most have none

            layers += [layer.rows for layer in open_folders(folders, say)]
        return cls([*layers, ours.__getitem__], folders)

    @property
    def folders(self) -> tuple[Path, ...]:
        """The user's own folders, the topmost first."""
        from pathlib import Path  # noqa: PLC0415 - costs milliseconds, and few ask

        return tuple(map(Path, self._folders))

    def _shelf(self, name: str) -> tuple[Any, ...]:
        """Return a shelf's records, made when they are first asked for."""
        if name not in self._shelves:
            rows = [layer(name) for layer in self._layers]
            counted = rows[0] if len(rows) == 1 else join(name, rows)
            self._shelves[name] = tuple(map(MAKERS[name], counted))
        return self._shelves[name]

    def records(self) -> tuple[Entry, ...]:
        """Return the entry of every record, by path."""
        return self._shelf("records")

    def threads(self, family: str | None = None, d_mm: float | None = None) -> tuple[Thread, ...]:
        """Return the listed threads, of one family or diameter where given."""
        return tuple(
            thread
            for thread in self._shelf("threads")
            if family in {None, thread.family}
            and (d_mm is None or abs(thread.d_mm - d_mm) <= lookup.SAME_MM)
        )

    def candidates(self, text: str) -> tuple[Thread, ...]:
        """Return every thread that a text may mean: ``3/8`` is UNC or UNF, the coarser first.

        Raises
        ------
        NotUnderstood
            If the text is no designation, or no listed thread fits it.
        """
        exact = tuple(thread for thread in self._shelf("threads") if thread.size == text)
        if exact:
            return exact
        from torquebook.catalogue.designation import (  # noqa: PLC0415 - only for other spellings
            read_designation,
        )

        said = read_designation(text)
        found = lookup.matching(self._shelf("threads"), said)
        if not found:
            raise lookup.unlisted(self._shelf("threads"), said)
        return found

    def thread(self, text: str) -> Thread:
        """Return the one thread that a text means.

        Raises
        ------
        NotUnderstood
            If there is none, or more than one.
        """
        found = self.candidates(text)
        if len(found) > 1:
            sizes = tuple(f"{thread.size} {thread.series}" for thread in found)
            if found[0].family == "metric":
                sizes = tuple(thread.size for thread in found)
            raise NotUnderstood(text, "more than one pitch", sizes)
        return found[0]

    def class_named(self, text: str) -> str:
        """Return the name of a listed strength class, for whatever size.

        Raises
        ------
        NotUnderstood
            If the text is no class, or it is not listed.
        """
        names = {entry.name for entry in self._shelf("classes")}
        if text in names:
            return text
        from torquebook.catalogue.classes import read_class  # noqa: PLC0415 - as for designations

        name = read_class(text).name
        if name not in names:
            raise lookup.unlisted_class(self._shelf("classes"), text, name)
        return name

    def strength(self, name: str, d_mm: float, family: str | None = None) -> StrengthClass:
        """Return a strength class for one diameter.

        Parameters
        ----------
        name : str
            As typed: ``8.8``, ``class 10.9``, ``A2 70``, ``SAE 8``, ``Gr.8``.
        d_mm : float
            Nominal diameter [mm].
        family : str, optional
            The family of the thread.

        Raises
        ------
        NotUnderstood
            If there is no such class, not for that size, or not for that family.
        """
        listed = self.class_named(name)
        entries = [entry for entry in self._shelf("classes") if entry.name == listed]
        sized = [entry for entry in entries if _holds(entry.d_over_mm, d_mm, entry.d_to_mm)]
        like: StrengthClass = (sized or entries)[-1]
        if sized and family in {None, like.family}:
            return like
        readings = lookup.nearest_class(self.strengths(family or like.family, d_mm), like)
        if family and family != like.family:
            raise NotUnderstood(name, f"a class for {like.family} threads only", readings)
        raise NotUnderstood(name, lookup.outside(entries, self.threads(), d_mm), readings)

    def strengths(self, family: str, d_mm: float) -> tuple[StrengthClass, ...]:
        """Return the classes listed for a diameter, weakest first by proof stress."""
        found = [
            entry
            for entry in self._shelf("classes")
            if entry.family == family and _holds(entry.d_over_mm, d_mm, entry.d_to_mm)
        ]
        return tuple(sorted(found, key=lambda entry: (entry.proof_mpa, entry.tensile_mpa)))

    def nut(
        self, name: str, d_mm: float, edition: str | None = None, *, fine: bool = False
    ) -> NutClass:
        """Return a nut's class for one diameter: style 1 where it is listed.

        Parameters
        ----------
        name : str
            ``8``, ``nut 10``, ``04``.
        d_mm : float
            Nominal diameter [mm].
        edition : str, optional
            ``1980``, ``1992`` or ``1994``; without it the latest that lists the class.
        fine : bool
            True for a fine thread, which has a standard of its own.

        Raises
        ------
        NotUnderstood
            If there is no such class, or not for that size.
        """
        found = re.fullmatch(_NUT, lookup.plain(name).strip("| "), re.ASCII)
        every = [entry for entry in self._shelf("nuts") if edition in {None, entry.edition}]
        names = tuple(dict.fromkeys(entry.name for entry in every))
        if not found or found[1] not in names:
            bolt = re.fullmatch(r"(\d{1,2})[.,]\d", name.strip(), re.ASCII)
            readings = (bolt[1],) if bolt and bolt[1] in names else names
            raise NotUnderstood(name, "no listed class of nuts", readings)
        sized = [
            entry
            for entry in every
            if entry.name == found[1] and _holds(entry.d_over_mm, d_mm, entry.d_to_mm)
        ]
        sized.sort(key=lambda entry: entry.edition, reverse=True)
        sized.sort(key=lambda entry: entry.standard.endswith("-6") != fine)
        if not sized:
            raise NotUnderstood(name, f"class {found[1]} is not listed for {d_mm:g} mm")
        first: NutClass = sized[0]
        return first

    def friction(self, text: str) -> Friction:
        """Return a condition of friction by name, or from a stated coefficient.

        Raises
        ------
        NotUnderstood
            If there is no such name, or the number is no coefficient.
        """
        from torquebook.catalogue.conditions import read_friction  # noqa: PLC0415 - as above

        return read_friction(text) or lookup.named(self.frictions(), text, "friction")

    def frictions(self) -> tuple[Friction, ...]:
        """Return every named condition of friction."""
        return self._shelf("frictions")

    def default_friction(self) -> Friction:
        """Return the band that stands in where nothing is said of friction."""
        return lookup.named(self.frictions(), UNSAID, "friction")

    def heads(self, thread: Thread) -> tuple[HeadSize, ...]:
        """Return the heads and nuts listed for a thread.

        Where a head's standards list the very size, only those; else those of the same
        diameter, for heads go by diameter.
        """
        same = [
            head
            for head in self._shelf("heads")
            if thread.family == "metric" and abs(head.d_mm - thread.d_mm) <= lookup.SAME_MM
        ]
        exact = {head.head for head in same if head.size == thread.size}
        return tuple(
            head
            for head in same
            if (head.size == thread.size if head.head in exact else "x" not in head.size)
        )

    def head(self, text: str, thread: Thread) -> HeadSize | None:
        """Return a head by name or standard; empty text is a hexagon.

        Returns
        -------
        HeadSize or None
            None where the head is known but not listed for this thread.

        Raises
        ------
        NotUnderstood
            If there is no such head.
        """
        names: dict[str, tuple[str, str]] = {}
        written: list[str] = []
        for head, standard, aliases in self._shelf("head_names"):
            for name in (head, *aliases):
                names.setdefault(lookup.plain(name), (head, ""))
            names.setdefault(lookup.plain(standard), (head, standard))
            written += [head, *aliases, standard]
        found = names.get(lookup.plain(text or HEXAGON))
        if found is None:
            kinds = [head for head, _, _ in self._shelf("head_names")]
            raise NotUnderstood(text, "no head of that name", lookup.near(text, written, kinds))
        for size in self.heads(thread):
            if size.head == found[0] and found[1] in {"", size.standard}:
                return size
        return None

    def hole(self, d_mm: float) -> Hole | None:
        """Return the clearance holes for a diameter, None where none are listed."""
        return next(
            (hole for hole in self._shelf("holes") if abs(hole.d_mm - d_mm) <= lookup.SAME_MM), None
        )

    def drill_mm(self, thread: Thread) -> float | None:
        """Return the tapping drill for a cut thread, None where none is listed [mm]."""
        return next((d.drill_mm for d in self._shelf("drills") if d.size == thread.size), None)

    def material(self, text: str) -> Material:
        """Return a material by its name or that of a printed grade (``GJL-250``).

        Raises
        ------
        NotUnderstood
            If there is no such name; with the names that come near.
        """
        grade = lookup.graded(self.materials(), text)
        return grade or lookup.named(self.materials(), text, "material")

    def materials(self) -> tuple[Material, ...]:
        """Return every material."""
        return self._shelf("materials")

    def wrench(self, text: str) -> Wrench:
        """Return a wrench by name; raises ``NotUnderstood`` with the names that come near."""
        every: tuple[Wrench, ...] = self._shelf("wrenches")
        return lookup.named(every, text, "wrench")

    def wrenches(self) -> tuple[Wrench, ...]:
        """Return every wrench; the invented ones of the demo only where there is no other."""
        every = self._shelf("wrenches")
        return tuple(wrench for wrench in every if not wrench.invented) or every

    def tables(self) -> tuple[PrintedTable, ...]:
        """Return every printed table."""
        return self._shelf("tables")

    def patterns(self) -> tuple[Pattern, ...]:
        """Return every published order of tightening."""
        return self._shelf("patterns")

    def table_rows(
        self, thread: Thread, strength_class: str, nut: str = ""
    ) -> tuple[tuple[PrintedTable, PrintedRow], ...]:
        """Return the lines of printed tables for a thread, a class and a kind of nut.

        A line without a class answers only where no class is asked for.
        """
        sizes = {thread.size}
        if thread.family == "inch":
            sizes.add(thread.size.rpartition("-")[0])
        return tuple(
            (table, row)
            for table in self.tables()
            for row in table.rows
            if row.thread in sizes and strength_class in row.strength_classes and row.nut == nut
        )


def _holds(over_mm: float, d_mm: float, to_mm: float) -> bool:
    """Return whether a diameter lies above one bound and not above the other."""
    return over_mm + _SLACK_MM < d_mm <= to_mm + _SLACK_MM
