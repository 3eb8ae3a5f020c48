"""Before metal is cut: the chance that each clearance conforms, and what to tighten first."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from planner.models.bench import Chance, Tighten
from planner.physics.monte_carlo import Distribution, Normal, Rectangular, trials_needed
from planner.planning.names import Names
from planner.rulebook.printing import show_number, show_value
from planner.rulebook.results import Results
from planner.rulebook.value_type import ValueType
from planner.rulebook.values import Band

if TYPE_CHECKING:
    from planner.physics.monte_carlo import Trials

COVERED = 0.95
CENTRED = "aim moved to the middle of the limits"
HALF = 0.5
"""A better step is tried at half its scatter."""


@dataclass(frozen=True, slots=True)
class Scatter:
    """One thing that strays, and how it enters the clearance. SI.

    Attributes
    ----------
    width
        Standard deviation, or half-width where every size between the ends is alike.
    share
        What a change of it adds to the clearance: 1 for a housing, -1 for a journal or a wall.
    picked_from
        Steps of parts that may be picked once the rest was measured; none for no choice.
    """

    what: str
    width: float
    share: float
    even: bool = False
    measuring: bool = False


@dataclass(frozen=True, slots=True)
class Model:
    """How one clearance comes about.

    Attributes
    ----------
    fit
        The decision that gives limits and aim.
    items
        The set it is built in.
    pick
        Steps by which a part may be picked to bring the clearance back to its aim, SI.
    """

    fit: str
    items: str
    scatters: tuple[Scatter, ...]
    pick: tuple[float, ...] = ()


def chances(results: Results, names: Names) -> tuple[tuple[Chance, ...], int, int]:
    """Predict the chance that each clearance conforms.

    Parameters
    ----------
    results
        Limits, aims and scatters as the rulebook worked them out.
    names
        Prints values.

    Returns
    -------
    tuple
        The chances, the number of trials, and the seed that brings the very same trials back.

    Notes
    -----
    JCGM 101:2008, by trials: sizes scatter as the machine does, readings as the gauge does, and
    a reading proves a clearance inside the limits less the guard band (ISO 14253-1).
    """
    book = _Book(results, names)
    seed = round(book.number("chance_seed") or 0.0)
    found = [book.chance(model, seed) for model in book.models()]
    return tuple(each for each in found if each is not None), trials_needed(COVERED), seed


class _Book:
    def __init__(self, results: Results, names: Names) -> None:
        self.results, self.names = results, names
        self.world = results.world

    def number(self, name: str) -> float | None:
        answer = self.world.answers.get(name)
        value = answer.value() if answer is not None else None
        return value if isinstance(value, int | float) else None

    def measured(self, name: str) -> bool:
        """Tell whether the job holds the sizes of a part, so that they stray no more."""
        return name in self.results.facts.inputs

    def models(self) -> list[Model]:
        """Return how each clearance comes about, as far as this job has scatters for it."""
        steps = tuple(self._pair_steps())
        return [
            Model(
                "piston_to_wall",
                "cylinder",
                self._scatters(
                    ("hone, bore about its size", "hone_scatter", 1.0, ""),
                    ("pistons of one set", "piston_scatter", -1.0, "pistons_measured"),
                    ("gauge, piston to wall", "fit_uncertainty", 0.0, ""),
                ),
            ),
            self._bearing("rod_bearing_clearance", "rod", steps),
            self._bearing("main_bearing_clearance", "main", steps),
            Model(
                "top_gap_accepted",
                "cylinder",
                self._scatters(
                    ("filing", "gap_scatter", 1.0, ""), ("feelers", "gauge_feeler", 0.0, "")
                ),
            ),
        ]

    def _bearing(self, fit: str, items: str, steps: tuple[float, ...]) -> Model:
        housing, journal = {
            "rod": ("big_end_final", "rod_journal_final"),
            "main": ("main_housing_final", "main_journal_final"),
        }[items]
        scatters = self._scatters(
            ("housing about its size", "housing_scatter", 1.0, housing),
            ("journal about its size", "grind_scatter", -1.0, journal),
            ("wall of the upper shell", "shell_wall_tolerance", -1.0, ""),
            ("wall of the lower shell", "shell_wall_tolerance", -1.0, ""),
            ("gauge, oil clearance", "shell_uncertainty", 0.0, ""),
        )
        even = tuple(replace(each, even=each.what.startswith("wall")) for each in scatters)
        return Model(fit, items, even, steps)

    def _scatters(self, *rows: tuple[str, str, float, str]) -> tuple[Scatter, ...]:
        """Return what strays; sizes that were measured one by one stray no more."""
        found = []
        for what, name, share, measured in rows:
            width = self.number(name)
            if width is None or (measured and self.measured(measured)):
                continue
            found.append(Scatter(what, width, share, measuring=share == 0.0))
        return tuple(found)

    def _pair_steps(self) -> list[float]:
        """Return by how much each pair of shells in stock closes a clearance."""
        rows = self.results.rulebook.stock_rows.get("shell_pairs", {})
        return sorted({_sum(row.values) for row in rows.values()})

    def chance(self, model: Model, seed: int) -> Chance | None:
        """Work one clearance out; nothing while its limits are not settled."""
        answer = self.world.answers.get(model.fit)
        band = answer.value() if answer is not None else None
        coverage = self.number("guard_coverage")
        if answer is None or not isinstance(band, Band) or coverage is None:
            return None
        ends = _ends(band)
        if ends is None or not any(each.measuring for each in model.scatters):
            return None
        low, aim, high = self._aimed(model, ends)
        count = len(self.world.items(model.items))
        run = _Run(model.pick, (low, aim, high), coverage, seed)
        inside, proved = run.shares(model.scatters)
        wanted = self.number("chance_wanted") or COVERED
        declared = answer.type.over(())
        return Chance(
            fit=model.fit,
            title=self.results.rulebook.decisions[answer_decision(self.results, model.fit)].means,
            items=count,
            aim=show_number(aim, declared.as_number(), self.names.system),
            limits=show_value(Band(low, high), declared, self.names.system),
            inside=inside,
            proved=proved,
            all_proved=proved**count,
            enough=proved**count >= wanted,
            tighten=self._tighten(model, run, declared),
        )

    def _aimed(self, model: Model, ends: tuple[float, float, float]) -> tuple[float, float, float]:
        """Return limits and aim; a ring is filed to the aim of its own decision."""
        low, aim, high = ends
        if model.fit == "top_gap_accepted":
            answer = self.world.answers.get("top_ring_gap")
            own = answer.value() if answer is not None else None
            if isinstance(own, Band) and isinstance(own.target, int | float):
                aim = own.target
        return low, aim, high

    def _tighten(self, model: Model, run: "_Run", declared: ValueType) -> tuple[Tighten, ...]:
        """Halve each scatter in turn; the one that helps most comes first."""
        bare = ValueType("number", declared.unit, declared.dimension)
        found = []
        for name in dict.fromkeys(each.what.replace("upper", "lower") for each in model.scatters):
            better = tuple(
                replace(each, width=each.width * HALF)
                if each.what.replace("upper", "lower") == name
                else each
                for each in model.scatters
            )
            width = next(
                each.width
                for each in model.scatters
                if each.what.replace("upper", "lower") == name
            )
            shown = name.replace("wall of the lower shell", "walls of the shells")
            text = show_number(width, bare, self.names.system)
            found.append(Tighten(what=shown, scatter=text, chance=run.shares(better)[1]))
        middle = (run.ends[0] + run.ends[2]) / 2.0
        text = show_number(middle, declared.as_number(), self.names.system)
        centred = replace(run, ends=(run.ends[0], middle, run.ends[2]))
        aimed = Tighten(what=CENTRED, scatter=text, chance=centred.shares(model.scatters)[1])
        return tuple(sorted([*found, aimed], key=lambda each: (-each.chance, each.what)))


@dataclass(frozen=True, slots=True)
class _Run:
    """The trials of one clearance; each thing that strays has its own stream of random numbers."""

    pick: tuple[float, ...]
    ends: tuple[float, float, float]
    coverage: float
    seed: int

    def shares(self, scatters: Sequence[Scatter]) -> tuple[float, float]:
        """Return the share truly inside the limits, and the share whose reading proves it."""
        import numpy as np

        low, aim, high = self.ends
        trials = trials_needed(COVERED)
        streams = np.random.SeedSequence(self.seed).spawn(len(scatters))
        true = np.full(trials, aim)
        error = np.zeros(trials)
        guard = 0.0
        for each, stream in zip(scatters, streams, strict=True):
            drawn = _drawn(each, np.random.Generator(np.random.PCG64(stream)), trials)
            if each.measuring:
                error, guard = error + drawn, guard + self.coverage * each.width
            else:
                true += each.share * drawn
        if self.pick:
            true = self._picked(true, aim, np)
        read = true + error
        inside = float(np.mean((true >= low) & (true <= high)))
        proved = float(np.mean((read >= low + guard) & (read <= high - guard)))
        return inside, proved

    def _picked(self, true: "Trials", aim: float, numpy: Any) -> "Trials":  # noqa: ANN401 - a module
        """Take, for each trial, the pair in stock that brings the clearance nearest its aim."""
        steps = numpy.asarray(self.pick)
        middles = (steps[1:] + steps[:-1]) / 2.0
        picked: Trials = true - steps[numpy.searchsorted(middles, true - aim)]
        return picked


def _drawn(each: Scatter, generator: Any, trials: int) -> "Trials":  # noqa: ANN401 - numpy is opened late
    shape: Distribution = Rectangular(0.0, each.width) if each.even else Normal(0.0, each.width)
    return shape.draw(generator, trials)


def _ends(band: Band) -> tuple[float, float, float] | None:
    low, high, aim = band.low, band.high, band.target
    if not isinstance(low, int | float) or not isinstance(high, int | float):
        return None
    return low, aim if isinstance(aim, int | float) else (low + high) / 2.0, high


def _sum(values: Mapping[str, object]) -> float:
    parts = (values.get("upper"), values.get("lower"))
    return sum(each for each in parts if isinstance(each, int | float))


def answer_decision(results: Results, name: str) -> str:
    """Return the decision that gives a result."""
    return results.rulebook.results[name][0]
