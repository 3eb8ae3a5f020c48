"""Verification of a whole engine: every fit, item by item, with cures and hold points."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from planner.asbuilt.corrections import Corrections, Route
from planner.asbuilt.derive import Deriver
from planner.asbuilt.fits import WHOLE, Fit, read_corrections, read_fits
from planner.asbuilt.judge import Judge
from planner.asbuilt.measured import Measured, Readings
from planner.asbuilt.readings import AsBuiltReader
from planner.datafiles.nodes import Node
from planner.errors import Problem, ProblemsFound
from planner.models.asbuilt import SETTLED, FitDoc, HoldDoc, Verification
from planner.models.job import Done
from planner.rulebook.results import Results
from planner.rulebook.values import Status
from planner.rulebook.world import System


@dataclass(frozen=True, slots=True)
class Work:
    """What has been done on a job, and in which order it has to be.

    Attributes
    ----------
    edges, order
        Operations of the plan.
    done
        Marked done, with day and name.
    """

    edges: Mapping[str, Mapping[str, str]]
    order: tuple[str, ...]
    done: Mapping[str, Done]


def verify(
    results: Results, node: Node | None, work: Work, system: System = "metric"
) -> Verification:
    """Judge everything that was measured of a finished engine.

    Parameters
    ----------
    results
        What the rulebook said of the job: limits, uncertainties, sizes.
    node
        The as_built block of the job.
    work
        Operations of the plan and what is done.
    system
        Units to print in.

    Returns
    -------
    Verification
        Every fit with its verdicts, the cures of what failed, and the hold points.

    Raises
    ------
    ProblemsFound
        With every slip in the readings.
    """
    return _Verifier(results, node, work, system).verification()


class _Verifier:
    def __init__(self, results: Results, node: Node | None, work: Work, system: System) -> None:
        self.results, self.world, self.work = results, results.world, work
        self.fits = read_fits(results.rulebook)
        reader = AsBuiltReader(self.world, self.fits)
        typed = reader.read(node)
        if reader.problems:
            raise ProblemsFound(reader.problems)
        self.readings = Deriver(self.world, self.fits, typed).all()
        self.judge = Judge(self.world, tuple(reader.accepted), system)
        days = {name: done.day for name, done in work.done.items()}
        self.route = Route(work.edges, work.order, days)

    def verification(self) -> Verification:
        refused = {name: self._not_applicable(fit) for name, fit in self.fits.items()}
        docs = tuple(
            self._doc(fit, self.readings.get(name, {}))
            for name, fit in self.fits.items()
            if not refused[name]
        )
        rows = read_corrections(self.results.rulebook)
        operations = self.results.rulebook.operations
        corrections = Corrections(rows, self.world, operations, self.route)
        counts = Counter(each.state for doc in docs for each in doc.items)
        return Verification(
            fits=docs,
            counts=dict(sorted(counts.items())),
            cures=corrections.cures(docs),
            holds=self._holds(docs),
            not_applicable={name: why for name, why in refused.items() if why},
            questions=tuple(self._questions()),
        )

    def _at(self, fit: Fit) -> str:
        """Return the operation of this plan that a fit is measured at."""
        return next((each for each in fit.at if each in self.work.edges), "")

    def _not_applicable(self, fit: Fit) -> str:
        """Say why this build does not have a fit; nothing when it has."""
        if self.readings.get(fit.id):
            return ""
        if not self._at(fit):
            return f"the plan holds no {' and no '.join(fit.at)}"
        name = fit.limits.partition(".")[0]
        decision = self.results.rulebook.results.get(name, (name, ""))[0]
        outcome = self.results.outcomes.get(decision)
        if outcome is not None and outcome.status == Status.NOT_APPLICABLE:
            return outcome.not_applicable or "it does not apply to this engine"
        return ""

    def _doc(self, fit: Fit, readings: Readings) -> FitDoc:
        items = ("",) if fit.set == WHOLE else self.world.items(fit.set)
        declared = self.judge.type_of(fit)
        return FitDoc(
            id=fit.id,
            title=fit.says,
            clearance=fit.clearance,
            unit=declared.unit.name if declared.unit else "",
            at=self._at(fit) or fit.at[0],
            limits_from=fit.limits,
            items=tuple(
                self.judge.judged(fit, item, each, self._out_of_date(fit, each))
                for item, each in ((item, readings.get(item)) for item in items)
            ),
        )

    def _out_of_date(self, fit: Fit, measured: Measured | None) -> str:
        """Say which work was done after a reading was taken that has to come before it.

        What is worked out of other readings is out of date when one of those is.
        """
        at = self._at(fit)
        if measured is not None and measured.worked_out:
            told = [self._source_out_of_date(name) for name in fit.sources]
            return next((each for each in told if each), "")
        since = measured.holds_from if measured is not None else ""
        if not since or not at:
            return ""
        late = [name for name in self.route.before(at) if self.route.done.get(name, "") > since]
        if not late:
            return ""
        name = late[0]
        return f"{name} was done on {self.route.done[name]}, after this reading of {since}"

    def _source_out_of_date(self, name: str) -> str:
        source = self.fits[name]
        told = [self._out_of_date(source, each) for each in self.readings.get(name, {}).values()]
        return next((each for each in told if each), "")

    def _holds(self, docs: tuple[FitDoc, ...]) -> tuple[HoldDoc, ...]:
        operations, found = self.results.rulebook.operations, []
        texts = {each.operation.name: each.texts for each in self.results.called}
        for name in self.work.order:
            if not operations[name].hold:
                continue
            hold = texts.get(name, {}).get("hold", operations[name].hold)
            found.append(self._hold(name, hold, open_fits(docs, name)))
        return tuple(found)

    def _hold(self, name: str, hold: str, open_: tuple[str, ...]) -> HoldDoc:
        done = self.work.done.get(name)
        if done is not None and done.by:
            return HoldDoc(
                operation=name,
                hold=hold,
                state="signed but not proved" if open_ else "signed",
                day=done.day,
                by=done.by,
                open=open_,
            )
        blocked = open_ or any(each not in self.work.done for each in self.work.edges[name])
        return HoldDoc(
            operation=name, hold=hold, state="blocked" if blocked else "ready to sign", open=open_
        )

    def _questions(self) -> list[str]:
        """Ask for what a record cannot do without: when a reading was taken, and by whom."""
        asked = []
        for name, readings in self.readings.items():
            for what, lacks in (("no date", "on"), ("no name", "by")):
                if any(not getattr(each, lacks) for each in readings.values()):
                    asked.append(f"{name}: a reading has {what}; add {lacks}: to its block")
        return asked


def open_fits(docs: tuple[FitDoc, ...], operation: str) -> tuple[str, ...]:
    """List what stands in the way of signing an operation: readings that did not pass.

    Parameters
    ----------
    docs
        Every fit.
    operation
        The operation they are measured at.

    Returns
    -------
    tuple of str
        For example ``main_bearing_clearance main 3: fail``.
    """
    return tuple(
        f"{doc.id}{f' {each.where}' if each.where else ''}: {each.state}"
        for doc in docs
        if doc.at == operation
        for each in doc.items
        if each.state not in SETTLED
    )


def problems_of(verification: Verification) -> tuple[Problem, ...]:
    """Return the questions of a verification as problems to print."""
    fix = "write it down; the record goes with the engine"
    return tuple(Problem(each, fix, kind="question") for each in verification.questions)
