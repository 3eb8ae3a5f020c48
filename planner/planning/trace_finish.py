"""The surface of a bore from its trace, held beside what the plan asks of it."""

from dataclasses import dataclass

from planner.datafiles.trace import Trace
from planner.physics import find_formula
from planner.physics.finish_filter import filtered_profile
from planner.rulebook.results import Results
from planner.rulebook.values import Band

# The figure as it is called, and the result of a decision that says what it should be.
WANTED = {
    "Ra": "finish_ra",
    "Rz": "finish_rz",
    "Rpk": "finish_rpk_most",
    "Rk": "finish_rk",
    "Rvk": "finish_rvk",
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a surface, and its limits where the plan has any.

    Attributes
    ----------
    name
        As it is called: Ra, Rz, Rk, Rpk, Rvk, Mr1, Mr2.
    measured
        Its value; the shares Mr1 and Mr2 as shares, the others in metres.
    low, high
        Limits; none where there is no limit on that side.
    """

    name: str
    measured: float
    low: float | None = None
    high: float | None = None

    @property
    def share(self) -> bool:
        """Whether it is a share of the length, not a height."""
        return self.name.startswith("Mr")

    @property
    def inside(self) -> bool:
        """Whether it lies inside its limits; true where it has none."""
        below = self.low is not None and self.measured < self.low
        above = self.high is not None and self.measured > self.high
        return not (below or above)


def finish_figures(trace: Trace, cut_off: float, results: Results | None = None) -> list[Figure]:
    """Work out the roughness figures of a trace.

    Parameters
    ----------
    trace
        The trace as the instrument gives it.
    cut_off
        Length of wave above which nothing counts as roughness. [m]
    results
        A job worked out; its finish is what the figures are held against.

    Returns
    -------
    list of Figure
        Ra, Rz, Rpk, Rk, Rvk, Mr1 and Mr2.

    Raises
    ------
    OutsideValidity
        When the trace is too short or too coarse for that cut-off.
    """
    profile = filtered_profile(heights=trace.heights, spacing=trace.spacing, cut_off=cut_off)
    found = _asked("profile_roughness", profile) | _asked("rk_parameters", profile)
    figures = []
    for name, decision in WANTED.items():
        low, high = _limits(results, decision)
        figures.append(Figure(name, found[name.lower()], low, high))
    return [*figures, Figure("Mr1", found["mr1"]), Figure("Mr2", found["mr2"])]


def _asked(formula: str, profile: tuple[tuple[float, ...]]) -> dict[str, float]:
    answer = find_formula(formula).function(profile=profile)
    return answer if isinstance(answer, dict) else {formula: answer}


def _limits(results: Results | None, name: str) -> tuple[float | None, float | None]:
    """Give what the plan asks of a figure; a single number is the most it may be."""
    answer = results.world.answers.get(name) if results is not None else None
    found = next(iter(answer.entries.values())).value if answer is not None else None
    if isinstance(found, Band) and isinstance(found.low, float) and isinstance(found.high, float):
        return found.low, found.high
    return None, found if isinstance(found, float) else None
