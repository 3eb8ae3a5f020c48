"""Each reading against its limits: the verdict of ISO 14253-1 beside the shop's plain one."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import isclose

from planner.asbuilt.derive import uncertainty_of
from planner.asbuilt.fits import Fit
from planner.asbuilt.measured import Acceptance, Measured
from planner.errors import Place
from planner.models.asbuilt import ItemVerdict, State, Taken
from planner.physics.verdicts import Verdict, inside_limit, verdict
from planner.physics.verdicts_uncertainty import conformity_probability
from planner.rulebook.printing import needs_text, show_number, show_value
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band, Entry, Status
from planner.rulebook.world import System, World
from planner.units import to_unit

COVERAGE = "guard_coverage"
WORTH = "form_gauge_worth"
USUAL_COVERAGE, USUAL_WORTH = 1.65, 4.0
"""What counts where a shop's own rules leave the two out."""
_NOWHERE = Place("", 0, 0)
_STATES: Mapping[Verdict, State] = {
    "conform": "pass",
    "nonconform": "fail",
    "indeterminate": "indeterminate",
    "gauge too coarse": "gauge too coarse",
}


@dataclass(frozen=True, slots=True)
class Limits:
    """What a reading is held to. SI; none on a side without a limit."""

    low: float | None
    high: float | None
    target: float | None
    text: str


class Judge:
    """Judges readings.

    Parameters
    ----------
    world
        Limits and uncertainties as the rulebook worked them out.
    accepted
        Signatures for what is not proved.
    system
        Units to print in.
    """

    def __init__(
        self, world: World, accepted: tuple[Acceptance, ...] = (), system: System = "metric"
    ) -> None:
        self.world, self.system = world, system
        self.accepted = {(each.fit, each.item): each for each in accepted}

    def judged(
        self, fit: Fit, item: str, measured: Measured | None, out_of_date: str = ""
    ) -> ItemVerdict:
        """Judge one item of a fit.

        Parameters
        ----------
        fit
            What was measured.
        item
            Which one; the empty word for the whole engine.
        measured
            Its reading, or nothing.
        out_of_date
            Why the reading no longer counts, or nothing.

        Returns
        -------
        ItemVerdict
            State, verdict and what they rest on.
        """
        where = f"{self.world.rulebook.sets[fit.set].called} {item}" if item else ""
        limits = self.limits(fit, item)
        if isinstance(limits, str):
            state: State = "missing" if measured is None else "no limits"
            return ItemVerdict(where=where, item=item, state=state, because=limits)
        if measured is None:
            return self._held_to(ItemVerdict(where=where, item=item, state="missing"), fit, limits)
        found = self._read(fit, measured, limits, item, out_of_date)
        return self._held_to(replace(found, where=where, item=item), fit, limits)

    def type_of(self, fit: Fit) -> ValueType:
        """Return the type of one number of a fit."""
        return self.world.scope.resolve(fit.limits, _NOWHERE).type.over(()).as_number()

    def limits(self, fit: Fit, item: str) -> Limits | str:
        """Return the limits of an item, or why there are none yet."""
        ref = self.world.scope.resolve(fit.limits, _NOWHERE)
        entry = self.world.entry(ref, {ref.type.per[0]: item} if ref.type.per else {})
        if entry.value is None:
            return self._no_limits(entry)
        value = entry.value
        if isinstance(value, Band):
            low, target, high = value.low, value.target, value.high
        else:
            low, target, high = value, None, value  # type: ignore[assignment]
        if not isinstance(low, int | float) or not isinstance(high, int | float):
            return "its limits are not settled yet"
        return Limits(
            low=None if fit.side == "at_most" else low,
            high=None if fit.side == "at_least" else high,
            target=target if isinstance(target, int | float) else None,
            text=self._limits_text(fit, value, ref.type),
        )

    def _no_limits(self, entry: Entry) -> str:
        if entry.status in (Status.REFUSED, Status.NOT_APPLICABLE):
            return f"no limits: {entry.refused}"
        return f"no limits yet: they need {needs_text(self.world, entry)}"

    def _limits_text(self, fit: Fit, value: object, declared: ValueType) -> str:
        lead = {"at_most": "at most ", "at_least": "at least "}.get(fit.side, "")
        if isinstance(value, Band) and fit.side != "both":
            value = value.high if fit.side == "at_most" else value.low
        return lead + show_value(value, declared.over(()), self.system)  # type: ignore[arg-type]

    def _read(
        self,
        fit: Fit,
        measured: Measured,
        limits: Limits,
        item: str,
        out_of_date: str,
    ) -> ItemVerdict:
        declared, sure = self.type_of(fit), uncertainty_of(self.world, fit, measured)
        inside = _inside(measured, limits)
        found: Verdict = "indeterminate"
        if sure is not None:
            found = self.verdict(measured, limits, sure)
        state, because = self._state(fit, found, inside=inside, limits=limits, sure=sure)
        signed = self.accepted.get((fit.id, item))
        if signed is not None and state in ("indeterminate", "gauge too coarse") and inside:
            state, because = "accepted", f"not proved; {signed.by} accepts it: {signed.because}"
        if out_of_date:
            state, because = "out of date", out_of_date
        open_ = state in ("indeterminate", "gauge too coarse", "accepted", "out of date")
        return ItemVerdict(
            where="",
            state=state,
            low=_out(measured.low, declared),
            high=_out(measured.high, declared),
            reading=self._reading_text(measured, declared),
            verdict=found,
            inside_limit=inside,
            probability=_probability(measured, limits, sure) if open_ and sure else None,
            side=_side(measured, limits) if state != "pass" else "",
            because=because,
            taken=_taken(measured, sure, declared, self.system),
        )

    def verdict(self, measured: Measured, limits: Limits, sure: float) -> Verdict:
        """Judge the smallest and the largest reading; the worse of the two counts."""
        worst: Verdict = "conform"
        order: tuple[Verdict, ...] = (
            "conform",
            "indeterminate",
            "gauge too coarse",
            "nonconform",
        )
        for value in {measured.low, measured.high}:
            found = verdict(
                value,
                limits.low,
                limits.high,
                uncertainty=sure,
                coverage=self._number(COVERAGE, USUAL_COVERAGE),
            )
            worst = max(worst, found, key=order.index)
        return worst

    def _state(
        self, fit: Fit, found: Verdict, *, inside: bool, limits: Limits, sure: float | None
    ) -> tuple[State, str]:
        """Turn a verdict into a state; a form limit is passed plainly by a gauge fine enough."""
        if not fit.plain:
            return _STATES[found], "" if sure is not None else "nobody knows how sure it is"
        room, worth = _room(limits), self._number(WORTH, USUAL_WORTH)
        if sure is not None and 0.0 < room < worth * sure and found != "conform":
            text = f"the gauge is not {worth:g} times finer than the limit"
            return ("fail", "") if found == "nonconform" else ("gauge too coarse", text)
        if not inside:
            return (
                "fail",
                "" if found == "nonconform" else "outside the limit, by less than is sure",
            )
        return "pass", "" if found == "conform" else "inside the limit; by ISO 14253-1 not proved"

    def _number(self, name: str, usual: float) -> float:
        answer = self.world.answers.get(name)
        value = answer.value() if answer is not None else None
        return value if isinstance(value, int | float) else usual

    def _held_to(self, found: ItemVerdict, fit: Fit, limits: Limits) -> ItemVerdict:
        """Add what a reading is held to."""
        declared = self.type_of(fit)
        return replace(
            found,
            limit_low=None if limits.low is None else _out(limits.low, declared),
            limit_high=None if limits.high is None else _out(limits.high, declared),
            target=None if limits.target is None else _out(limits.target, declared),
            limits=limits.text,
        )

    def _reading_text(self, measured: Measured, declared: ValueType) -> str:
        low, high = (
            show_number(each, _fine(each, declared), self.system)
            for each in (measured.low, measured.high)
        )
        return low if low == high else f"{low} to {high}"


def _fine(si: float, declared: ValueType) -> ValueType:
    """Print a reading as finely as it was taken, whatever its limits are rounded to."""
    if declared.unit is None:
        return replace(declared, step=None)
    value = to_unit(si, declared.unit)
    places = next((each for each in (2, 3) if isclose(value, round(value, each))), 4)
    usual = show_number(si, replace(declared, step=None))
    shown = len(usual.partition(" ")[0].partition(".")[2])
    step = None if places <= shown else declared.unit.factor * 10.0**-places
    return replace(declared, step=step)


def _room(limits: Limits) -> float:
    """Return the width between the limits, or the size of the only one."""
    if limits.low is not None and limits.high is not None:
        return limits.high - limits.low
    edge = limits.high if limits.high is not None else limits.low
    return abs(edge or 0.0)


def _inside(measured: Measured, limits: Limits) -> bool:
    return all(
        inside_limit(each, limits.low, limits.high) or _on_edge(each, limits)
        for each in (measured.low, measured.high)
    )


def _on_edge(value: float, limits: Limits) -> bool:
    """Tell whether a reading is a limit itself; the twelfth digit does not decide."""
    edges = [each for each in (limits.low, limits.high) if each is not None]
    return any(isclose(value, each, rel_tol=1e-11, abs_tol=1e-15) for each in edges)


def _side(measured: Measured, limits: Limits) -> str:
    """Say which way a reading lies: under, over, or unsure when it is inside both."""
    below = limits.low is not None and measured.low < limits.low
    above = limits.high is not None and measured.high > limits.high
    if _inside(measured, limits) or below == above:
        return "unsure" if not below else "either"
    return "under" if below else "over"


def _probability(measured: Measured, limits: Limits, sure: float) -> float:
    """Work out the chance that the size truly lies inside, from the worse of the readings."""
    span = max(abs(measured.high), abs(measured.low), sure) * 1e3
    low = limits.low if limits.low is not None else measured.low - span
    high = limits.high if limits.high is not None else measured.high + span
    return min(
        conformity_probability(value=each, low=low, high=high, uncertainty=sure)
        for each in (measured.low, measured.high)
    )


def _taken(measured: Measured, sure: float | None, declared: ValueType, system: System) -> Taken:
    bare = ValueType("number", declared.unit, declared.dimension)
    return Taken(
        gauge=measured.gauge,
        instrument=measured.instrument,
        uncertainty="" if sure is None else show_number(sure, bare, system),
        by=measured.by,
        on=measured.on,
        note=measured.note,
        worked_out=measured.worked_out,
        confirmed=measured.confirmed_by,
    )


def _out(si: float, declared: ValueType) -> float:
    return to_unit(si, declared.unit) if declared.unit else float(f"{si:.12g}")
