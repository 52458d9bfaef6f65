"""One line of a plan with everything that the rules ask of it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from torquebook.bands import Band
from torquebook.catalogue.defaults import TORQUE_SCATTER
from torquebook.errors import NotUnderstood
from torquebook.mechanics.scatter import with_method, with_tool
from torquebook.notation import Angle, Slacken, Torque
from torquebook.patterns.measures import LEAST_CIRCLE
from torquebook.patterns.reading import BY_LAYOUT, order_of, passes_of, positions_named, way_named
from torquebook.rules.basis import say
from torquebook.rules.basis.deviation import Deviation, find_deviation
from torquebook.rules.basis.kinds import BOLTS, REASONS, STRETCH, hinted_kind
from torquebook.rules.basis.orders import named_orders
from torquebook.rules.basis.report import speaker
from torquebook.rules.basis.slips import Slip, find_slips
from torquebook.rules.basis.tables import TableRow, applying_rows

if TYPE_CHECKING:
    from torquebook.catalogue.shelves import Friction, StrengthClass, Thread
    from torquebook.findings import Place
    from torquebook.mechanics.yield_bands import TightenedBand
    from torquebook.plans.model import PlanLine
    from torquebook.rules.basis.fastener import Fitter
    from torquebook.rules.basis.peers import Peers
    from torquebook.rules.basis.specs import Spec
    from torquebook.rules.basis.wrenches import LineWrench


# A bolt that is slackened between stages ends as tight as before; a bearing's nut does not.
BACKED_OFF = 0.5


class Case:
    """A line, its fastener, and the list that it stands in.

    Parameters
    ----------
    line : PlanLine
    fitter : Fitter
        Reads the line's words, and keeps what lines share.
    wrench : LineWrench
        The wrench that the line names, or the tolerance of one that it does not.
    """

    peers: Peers  # the list as a whole; set once all its cases are known

    def __init__(self, line: PlanLine, fitter: Fitter, wrench: LineWrench) -> None:
        self.line = line
        self.fitter = fitter
        self.fastener = fitter.fit(line)
        self.wrench = wrench
        self.book = fitter.book

    @property
    def joint(self) -> str:
        """The joint's name, empty if it has none."""
        return self.line.text("joint")

    def place_of(self, column: str) -> Place:
        """Return the place of a column's cell, or of the row if the cell is empty."""
        return self.line.place_of(column)

    @cached_property
    def spec(self) -> Spec | None:
        """The record that the line names as its spec, or None if it names none."""
        text = self.line.text("spec")
        return self.fitter.spec(text) if text else None

    # -- what kind of line it is -------------------------------------------------------

    @cached_property
    def kind(self) -> str:
        """The kind as stated, lower case; empty for a bolt, screw or nut."""
        kind = " ".join(self.line.text("kind").casefold().split())
        return "" if kind in BOLTS or kind == STRETCH else kind

    @property
    def is_stretch_bolt(self) -> bool:
        """Whether the line says that its bolt is made to be tightened past yield."""
        return " ".join(self.line.text("kind").casefold().split()) == STRETCH

    @cached_property
    def hinted_kind(self) -> str | None:
        """The special kind that the joint's name hints at where no kind is stated."""
        if self.line.text("kind"):
            return None
        return hinted_kind(self.line.text("joint")) or ("adjusting" if self._backs_off else None)

    @property
    def _backs_off(self) -> bool:
        """Whether the line seats, slackens and ends far lower, as a bearing's nut is set."""
        torques = [stage.band.nominal for stage in self.line.stages if isinstance(stage, Torque)]
        slackens = any(isinstance(stage, Slacken) for stage in self.line.stages)
        return slackens and len(torques) > 1 and torques[-1] < BACKED_OFF * max(torques)

    @cached_property
    def silence(self) -> str | None:
        """Why no preload can be read from this line's torque, or None if it can."""
        if self.kind:
            return REASONS.get(self.kind, f"the kind is {self.kind}, not a bolt")
        trouble = self.fastener.troubles.get("thread")
        if trouble is not None:
            return trouble.what
        return None

    # -- the stages --------------------------------------------------------------------

    @cached_property
    def final_stages(self) -> tuple[Torque | Angle | Slacken, ...]:
        """The stages that decide the preload: those since the bolt was last slackened.

        A slackening by an angle stays among them, unless a torque follows it.
        """
        kept: list[Torque | Angle | Slacken] = []
        for stage in self.line.stages:
            if isinstance(stage, Torque) and any(isinstance(one, Slacken) for one in kept):
                kept.clear()
            if isinstance(stage, Slacken) and stage.by_deg is None:
                kept.clear()
            elif isinstance(stage, Torque | Angle | Slacken):
                kept.append(stage)
        return tuple(kept)

    @cached_property
    def torque(self) -> Torque | None:
        """The highest torque stage: the final torque, or the snug torque of an angle.

        A later and lower one turns nothing; stage-falls reports it.
        """
        torques = [stage for stage in self.final_stages if isinstance(stage, Torque)]
        return max(torques, key=lambda stage: stage.band.nominal, default=None)

    @cached_property
    def angle_deg(self) -> Band | None:
        """All angle since the snug torque, or None if the last stage is a torque."""
        stages = self.final_stages
        if not stages or isinstance(stages[-1], Torque):
            return None
        angles = [stage.band for stage in stages if isinstance(stage, Angle)]
        back = sum(stage.by_deg or 0.0 for stage in stages if isinstance(stage, Slacken))
        low, nominal, high = (
            (sum(ends) - back for ends in zip(*angles, strict=True)) if angles else (0.0,) * 3
        )
        return Band(low, nominal, high) if low > 0 else None

    # -- the fastener ------------------------------------------------------------------

    @cached_property
    def thread(self) -> Thread | None:
        """The thread, the coarser one where the pitch is not stated."""
        return self.fastener.thread

    @property
    def strength(self) -> StrengthClass | None:
        """The stated class."""
        return self.fastener.strength

    @property
    def friction(self) -> Friction:
        """The stated friction, or the band of a line that states none."""
        return self.fastener.friction or self.book.default_friction()

    # -- the load ----------------------------------------------------------------------

    @cached_property
    def preload_n(self) -> Band | None:
        """Preload at the highest torque stage, or None.

        Over friction and wrench, and no narrower than the method is known to scatter.
        """
        torque = self.torque
        if torque is None or self.thread is None or self.silence:
            return None
        return self._preload_n(torque)

    def _preload_n(self, torque: Torque) -> Band:
        per_n = self.fastener.torque_nm_per_n
        low, nominal, high = self._delivered(torque)
        preload = Band(low / per_n.high, nominal / per_n.nominal, high / per_n.low)
        return with_method(preload, TORQUE_SCATTER)

    def _delivered(self, torque: Torque) -> Band:
        """Return a torque as the wrench delivers it [N·m]."""
        return with_tool(torque.band, self.wrench.deviation(torque.band.nominal))

    @cached_property
    def needed_engagement_mm(self) -> float | None:
        """Engagement that the material needs; None where it or the thread is not known."""
        material, thread = self.fastener.material, self.thread
        return material.engagement_d * thread.d_mm if material and thread else None

    @cached_property
    def utilisation(self) -> Band | None:
        """Preload as a share of the proof load; None where the class is not known."""
        if self.preload_n is None or self.strength is None:
            return None
        proof = self.fastener.proof_n
        return Band(
            self.preload_n.low / proof.high,
            self.preload_n.nominal / proof.nominal,
            self.preload_n.high / proof.low,
        )

    @cached_property
    def table_rows(self) -> tuple[TableRow, ...]:
        """The rows of printed tables that apply to the line."""
        return tuple(applying_rows(self))

    @cached_property
    def deviation(self) -> Deviation | None:
        """How far the torque is from what it should be, or None if nothing speaks against it."""
        return find_deviation(self)

    @cached_property
    def slips(self) -> tuple[Slip, ...]:
        """The simple slips that explain the deviation, likeliest first."""
        return find_slips(self, self.deviation) if self.deviation else ()

    @cached_property
    def speaker(self) -> str | None:
        """The slug of the rule that reports the deviation, so that only one does."""
        return speaker(self, self.deviation) if self.deviation else None

    @cached_property
    def yield_shares(self) -> Band | None:
        """Combined tension and torsion as a share of yield; None where it cannot be known."""
        return self._yield_shares(self.preload_n)

    def yield_shares_at(self, torque: Torque) -> Band | None:
        """Return the same at another torque of the line."""
        if self.thread is None or self.silence:
            return None
        return self._yield_shares(self._preload_n(torque))

    def _yield_shares(self, preload: Band | None) -> Band | None:
        mu = self.friction.mu_thread
        if preload is None or self.strength is None:
            return None
        share = self.fastener.yield_share
        return Band(
            share(preload.low, mu.high),
            share(preload.nominal, mu.nominal),
            share(preload.high, mu.low),
        )

    @cached_property
    def proof_torque_nm(self) -> Band:
        """Torque that brings the weakest to the strongest class to proof, nominal friction.

        Only for a line with a thread.
        """
        return self.fastener.proof_n.scaled(self.fastener.torque_nm_per_n.nominal)

    @cached_property
    def turned(self) -> TightenedBand | None:
        """Preload, finishing torque and stretch at the end of the angle, or None."""
        return self.turned_by(self.angle_deg) if self.angle_deg else None

    def turned_by(self, angle: Band) -> TightenedBand | None:
        """Return the same at the end of another angle [°]."""
        torque = self.torque
        if torque is None or self.silence:
            return None
        return self.fitter.turn(
            self.fastener, self._delivered(torque), angle, self.line.clamp_length_mm
        )

    @cached_property
    def final_preload_n(self) -> Band | None:
        """Preload at the end of the last stage; None where an angle's part is not known."""
        if self.turned is not None:
            return self.turned.preload_n
        return None if self.angle_deg is not None else self.preload_n

    # -- the order ---------------------------------------------------------------------

    @cached_property
    def order_trouble(self) -> NotUnderstood | None:
        """Why the order's name says nothing, None if there is none or it is known."""
        return self._named_order if isinstance(self._named_order, NotUnderstood) else None

    @cached_property
    def passes(self) -> tuple[tuple[int, ...], ...]:
        """The positions of each pass; none where they are not known."""
        if isinstance(self.line.order, tuple):
            return self.line.order
        return self._named_order if isinstance(self._named_order, tuple) else ()

    @cached_property
    def _named_order(self) -> tuple[tuple[int, ...], ...] | NotUnderstood:
        """What an order's names stand for, a pass each, or why one of them says nothing.

        Empty where they name no positions: without a count, and for a way that needs to
        know where they lie.
        """
        if not isinstance(self.line.order, str):
            return ()
        names = passes_of(self.line.order)
        published = named_orders(self.book)
        told = [positions_named(name, published) or 0 for name in names]
        count = self.line.count or max(told)
        read = [name for name in names if way_named(name) not in BY_LAYOUT]
        try:
            orders = tuple(order_of(name, count or LEAST_CIRCLE, published) for name in read)
        except NotUnderstood as trouble:
            return trouble
        return orders if count and len(orders) == len(names) else ()

    # -- what is assumed ---------------------------------------------------------------

    @cached_property
    def assumed(self) -> tuple[str, ...]:
        """What the figures rest on that the line does not state."""
        if self.preload_n is None:
            return ()
        notes = []
        if not self.line.text("friction") or "friction" in self.fastener.troubles:
            mu = self.friction.mu_thread
            notes.append(f"friction {mu.low:.2f} to {mu.high:.2f}")
        if self.fastener.head_assumed:
            head = self.line.text("head")
            unlisted = head and "head" not in self.fastener.troubles
            stands_in = f" in place of {head}, which no table lists for this thread"
            notes.append(f"a hexagon head{stands_in if unlisted else ''}")
        if len(self.fastener.threads) > 1:
            notes.append(" or ".join(thread.size for thread in self.fastener.threads))
        if not self.wrench.named:
            deviation = self.wrench.deviation(self.torque.band.nominal if self.torque else 0.0)
            notes.append(f"a wrench within {say.percent(deviation)}")
        return tuple(notes)
