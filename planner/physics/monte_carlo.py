"""Distributions carried through a sum by many trials, after JCGM 101."""

from collections.abc import Callable, Mapping
from math import ceil
from typing import TYPE_CHECKING, Protocol

from planner.errors import override
from planner.physics.bounds import within
from planner.records import record

if TYPE_CHECKING:
    import numpy as np

    Trials = np.ndarray[tuple[int], np.dtype[np.float64]]


class Distribution(Protocol):
    """What is known of one input."""

    def draw(self, generator: "np.random.Generator", trials: int) -> "Trials":
        """Draw so many values."""
        ...


@record
class Rectangular(Distribution):
    """Anywhere within the half-width either side, all places alike."""

    middle: float
    half_width: float

    @override
    def draw(self, generator: "np.random.Generator", trials: int) -> "Trials":
        """Draw so many values."""
        return self.middle + self.half_width * (2.0 * generator.random(trials) - 1.0)


@record
class Normal(Distribution):
    """Spread about the mean as repeated readings are."""

    mean: float
    deviation: float

    @override
    def draw(self, generator: "np.random.Generator", trials: int) -> "Trials":
        """Draw so many values."""
        return self.mean + self.deviation * generator.standard_normal(trials)


@record
class Summary:
    """What the trials say of the result; the seed brings back the very same trials."""

    mean: float
    uncertainty: float
    symmetric: tuple[float, float]
    shortest: tuple[float, float]
    coverage: float
    trials: int
    seed: int


def trials_needed(coverage: float) -> int:
    """Give the number of trials that JCGM 101 asks for at a coverage probability.

    Examples
    --------
    >>> trials_needed(0.95)
    200000
    """
    within("coverage probability", coverage, 0.5, 0.999, remedy="Use 0.95.")
    return ceil(round(1e4 / (1.0 - coverage), 6))


def propagate(
    model: Callable[..., "Trials"],
    inputs: Mapping[str, Distribution],
    *,
    seed: int,
    coverage: float = 0.95,
) -> Summary:
    """Carry what is known of the inputs through a formula.

    Parameters
    ----------
    model
        The formula, on arrays, with every input by keyword.
    inputs
        A distribution for each input, by name.
    seed
        Start of the random numbers; print it with the result.
    coverage
        Share of the results that each interval is to hold.

    Returns
    -------
    Summary
        Mean, standard uncertainty, the interval with equal tails and the shortest one.

    Notes
    -----
    JCGM 101:2008, clause 7: 10^4 / (1 - coverage) trials, results sorted, and among all
    intervals that hold the share asked for the symmetric and the shortest. Each input has
    its own stream, so adding one does not move the others.

    Examples
    --------
    >>> found = propagate(
    ...     lambda hole, pin: hole - pin,
    ...     {"hole": Rectangular(22.02, 0.003), "pin": Rectangular(22.0, 0.003)},
    ...     seed=1,
    ... )
    >>> round(found.mean, 4), found.trials
    (0.02, 200000)
    """
    import numpy as np

    trials = trials_needed(coverage)
    names = sorted(inputs)
    streams = np.random.SeedSequence(seed).spawn(len(names))
    drawn = {
        name: inputs[name].draw(np.random.Generator(np.random.PCG64(stream)), trials)
        for name, stream in zip(names, streams, strict=True)
    }
    results = np.sort(model(**drawn))
    held = round(coverage * trials)
    tail = (trials - held) // 2
    widths = results[held:] - results[: trials - held]
    start = int(np.argmin(widths))
    return Summary(
        mean=float(np.mean(results)),
        uncertainty=float(np.std(results, ddof=1)),
        symmetric=(float(results[tail]), float(results[tail + held])),
        shortest=(float(results[start]), float(results[start + held])),
        coverage=coverage,
        trials=trials,
        seed=seed,
    )
