"""Why a decision, an operation or an order came out as it did, as lines of text."""

from dataclasses import dataclass

from planner.errors import BorewrightError, nearest
from planner.models.plan import Plan
from planner.models.steps import Step
from planner.planning.step_docs import StepDocs
from planner.route.chain import chain_between
from planner.route.edges import followers
from planner.rulebook.explain import why
from planner.rulebook.printing import System
from planner.rulebook.results import Results


class UnknownNameError(BorewrightError):
    """A name that is neither a decision nor an operation of the plan."""


@dataclass(frozen=True, slots=True)
class Explainer:
    """Answers questions about one plan.

    Attributes
    ----------
    results
        What the rulebook said.
    plan
        The plan made from it.
    steps
        Its operations in order, with their edges.
    """

    results: Results
    plan: Plan
    steps: StepDocs

    def is_operation(self, name: str) -> bool:
        """Tell whether a name is an operation of the rulebook."""
        return name in self.results.rulebook.operations

    def is_decision(self, name: str) -> bool:
        """Tell whether a name is a decision, a result of one, or an input."""
        book, base = self.results.rulebook, name.partition(".")[0]
        return any(base in names for names in (book.results, book.decisions, book.inputs))

    def decision(self, name: str, system: System, *, deep: bool) -> list[str]:
        """Explain a decision, a result or an input.

        Raises
        ------
        UnknownNameError
            When there is none of that name, with the nearest.
        """
        book = self.results.rulebook
        base = name.partition(".")[0]
        known = {*book.results, *book.decisions, *book.inputs, *book.records}
        if base not in known:
            raise self._unknown(name, known | set(book.operations))
        return why(self.results, name, system=system, deep=deep)

    def decision_named(self, name: str) -> str:
        """Return the decision that gives a name.

        Raises
        ------
        UnknownNameError
            When no decision is or gives it, with the nearest.
        """
        found = self._decision_of(name)
        decisions = self.results.rulebook.decisions
        if found not in decisions:
            raise self._unknown(name, set(decisions))
        return found

    def advice(self, name: str) -> dict[str, str]:
        """Return what the rules tell each of the three people about a decision."""
        found = self.plan.decisions.get(self._decision_of(name))
        return dict(found.because) if found else {}

    def cautions(self, name: str) -> list[tuple[str, str]]:
        """Return the cautions of a decision: signal word and text."""
        found = self.plan.decisions.get(self._decision_of(name))
        return [(each.severity, each.text) for each in found.cautions] if found else []

    def step(self, name: str) -> Step | None:
        """Return an operation of the plan, or nothing when the plan does not hold it."""
        return next((each for each in self.plan.operations if each.id == name), None)

    def afterwards(self, name: str) -> dict[str, str]:
        """Return what comes after an operation, with the reasons."""
        return followers(self.steps.edges)[name]

    def before(self, earlier: str, later: str) -> list[str]:
        """Give the chain of reasons why one operation stands before another.

        Parameters
        ----------
        earlier, later
            Two operations of the plan; in the wrong order the answer says so.

        Returns
        -------
        list of str
            One line for each link.

        Raises
        ------
        UnknownNameError
            When one of them is not an operation.
        """
        for name in (earlier, later):
            if not self.is_operation(name):
                raise self._unknown(name, set(self.results.rulebook.operations))
        absent = [name for name in (earlier, later) if name not in self.steps.edges]
        if absent:
            return [f"{name} is not in this plan." for name in absent]
        links = chain_between(self.steps.edges, earlier, later)
        if links:
            head = f"{earlier} stands before {later}:"
            return [head, *(f"  {x.earlier} before {x.later}: {x.reason}" for x in links)]
        turned = chain_between(self.steps.edges, later, earlier)
        if turned:
            return [
                f"It is the other way round: {later} stands before {earlier}.",
                *(f"  {x.earlier} before {x.later}: {x.reason}" for x in turned),
            ]
        return [
            f"No reason binds {earlier} and {later}: they may run side by side. The plan lists "
            f"{min((earlier, later), key=self.steps.order.index)} first, as the rulebook does."
        ]

    def _decision_of(self, name: str) -> str:
        base = name.partition(".")[0]
        results = self.results.rulebook.results
        return results[base][0] if base in results else base

    def _unknown(self, name: str, known: set[str]) -> UnknownNameError:
        offer = nearest(name, known)
        return UnknownNameError(
            problem=f"There is no decision, input or operation {name!r}.",
            reason="Only a name of the rulebook can be explained.",
            remedy=f"Did you mean {offer}?" if offer else "See borewright rules names.",
        )
