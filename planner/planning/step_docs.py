"""Operations of the plan document: in order, with reasons, targets and hold points."""

from collections.abc import Iterable, Mapping

from planner.models.job import Done
from planner.models.steps import Schedule, Step, Target
from planner.planning.amounts import parts_of
from planner.planning.called_for import Grounds
from planner.planning.decision_docs import caution_docs, source_mark
from planner.planning.names import Names
from planner.planning.readings_behind import ReadingsBehind
from planner.planning.target_marks import target_mark
from planner.route.edges import Edges, edges_among
from planner.route.order import in_order
from planner.route.progress import open_holds, out_of_turn, startable
from planner.rulebook.advising import printed_text
from planner.rulebook.results import Called, Question, Results
from planner.rulebook.syntax import AUDIENCES, Inspect
from planner.rulebook.values import Key, Status


def _hours(called: Iterable[Called]) -> tuple[float, float, float]:
    """Add up low, likely and high hours."""
    hours = [each.operation.hours for each in called]
    low, likely, high = (sum(each[part] for each in hours) for part in range(3))
    return low, likely, high


class StepDocs:
    """Puts the operations of a job in order and fills them in.

    Parameters
    ----------
    results
        What the rulebook called.
    names
        Prints values.
    done
        What has been done, by operation.
    """

    def __init__(self, results: Results, names: Names, done: Mapping[str, Done]) -> None:
        self.results, self.names, self.done = results, names, done
        self.called = {each.operation.name: each for each in results.called}
        self.edges: Edges = edges_among(results.rulebook.operations, self.called)
        self.order = in_order(self.edges)
        self.readings = ReadingsBehind(results, names)
        self._grounds = Grounds(results, names, self.readings)

    def steps(self) -> tuple[Step, ...]:
        """Return every operation with its number."""
        return tuple(
            self._step(number, self.called[name]) for number, name in enumerate(self.order, 1)
        )

    def schedule(self) -> Schedule:
        """Return what can start now, what is done and which hold points are open."""
        operations = self.results.rulebook.operations
        finished = [name for name in self.order if name in self.done]
        doubtful = [name for name, each in self.called.items() if each.perhaps]
        return Schedule(
            can_start_now=startable(self.edges, self.order, finished, doubtful),
            done=tuple(finished),
            hold_points=open_holds(operations, self.order, finished),
            hours=_hours(each for each in self.called.values() if not each.perhaps),
            hours_perhaps=_hours(each for each in self.called.values() if each.perhaps),
        )

    def questions(self) -> tuple[Question, ...]:
        """Ask about work marked done out of turn, unsigned, or not in the plan."""
        operations = self.results.rulebook.operations
        asked = [
            Question(later, f"{later} is marked done, but {earlier} before it is not.")
            for later, earlier in out_of_turn(self.edges, self.done)
        ]
        asked += [
            Question(name, f"{name} is marked done, but this plan does not hold it.")
            for name in self.done
            if name not in self.called
        ]
        asked += [
            Question(name, f"{name} is a hold point, marked done without a name: who signed?")
            for name, done in self.done.items()
            if operations[name].hold and not done.by
        ]
        return tuple(asked)

    def _step(self, number: int, called: Called) -> Step:
        operation = called.operation
        texts, done = called.texts, self.done.get(operation.name)
        return Step(
            step=number,
            id=operation.name,
            title=texts.get("does", operation.does),
            lane=operation.lane,
            station=operation.station,
            work_class=operation.work_class,
            hours=operation.hours,
            perhaps=called.perhaps,
            where=called.where,
            because=self._grounds.because(called),
            found=self._grounds.found(called),
            after=dict(self.edges[operation.name]),
            targets=tuple(self._target(each, called) for each in operation.inspect),
            hold=texts.get("hold", operation.hold),
            why={who: texts[who] for who in AUDIENCES if texts.get(who)},
            if_skipped=texts.get("if_skipped", operation.if_skipped),
            rework=operation.rework,
            cautions=caution_docs(called.cautions),
            optional=operation.optional,
            done=f"{done.day} {done.by}".strip() if done else "",
            source=source_mark(operation.source, self.results.rulebook.sources).status,
        )

    def _target(self, inspect: Inspect, called: Called) -> Target:
        world, where = self.names.world, called.where
        said = printed_text(world, inspect.text, where)
        if inspect.target is None:
            return Target(
                measure=inspect.measure,
                instrument=inspect.instrument,
                text=said,
                source=target_mark(self.results, inspect, said),
            )
        entries = world.entries(self.names.ref(inspect.target))
        declared = self.names.ref(inspect.target).type
        status = max((each.status for each in entries.values()), default=Status.WAITING)
        text = self.names.text(entries, declared)
        only = entries.get(()) if not declared.per else None
        return Target(
            measure=inspect.measure,
            decision=inspect.target,
            instrument=inspect.instrument,
            status=status.word,
            per={
                self._label(declared.per, key): self.names.one(each, declared.over(()))
                for key, each in entries.items()
            }
            if declared.per
            else {},
            text=f"{text}; {said}" if said else text,
            source=target_mark(self.results, inspect, f"{text} {said}"),
            **(parts_of(only.value, declared) if only is not None else {}),
        )

    def _label(self, per: tuple[str, ...], key: Key) -> str:
        return self.names.label(per, key)
