"""Price a job many times by chance, to see what it comes to when lines turn out as they will."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from math import sqrt
from statistics import NormalDist
from typing import TYPE_CHECKING

from planner.planning.cost_lines import RawLine
from planner.planning.shop_data import Shop
from planner.rulebook.remembered import kept

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]

_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class Totals:
    """What the whole job comes to: rarely less, as often less as more, rarely more."""

    low: Decimal
    likely: Decimal
    high: Decimal


def totals(lines: Sequence[RawLine], shop: Shop) -> Totals:
    """Work out the three totals.

    Every line draws from its own numbers, which hang on the seed and on its id alone. So a line
    that stays draws the same before and after the engine is apart, trial by trial, and a range
    that was shown can only grow narrower when something is learned: the low total is taken with
    all that may fall away left out, at the cheapest still possible, the high total with all of
    it in, at the dearest.

    Parameters
    ----------
    lines
        Lines by themselves.
    shop
        Trials, seed, shares, and how far lines go together.

    Returns
    -------
    Totals
        In the shop's currency, to its last place.
    """
    asked = {"lines": [_told(line) for line in lines], "shop": _settings(shop)}
    found = kept("cost trials", asked, lambda: _tried(lines, shop))
    if not isinstance(found, dict):
        raise TypeError(found)
    return Totals(*(_rounded(found[way], shop) for way in ("low", "likely", "high")))


def _told(line: RawLine) -> tuple[object, ...]:
    """Say everything of a line that its trials hang on."""
    return (line.id, line.cheap, line.usual, line.dear, line.counts)


def _settings(shop: Shop) -> tuple[object, ...]:
    return (shop.seed, shop.trials, shop.common_share, shop.low_share, shop.high_share)


def _tried(lines: Sequence[RawLine], shop: Shop) -> dict[str, float]:
    import numpy as np

    sums = np.zeros((3, shop.trials))
    whole_job = _strata(f"{shop.seed}:the whole job", shop.trials)
    for line in lines:
        amounts, happens = _draws(line.id, whole_job, shop)
        for way, band in enumerate((line.cheap, line.usual, line.dear)):
            if line.counts[way] > 0:
                prices = triangular(amounts, *(float(each) for each in band))
                sums[way] += np.where(happens < line.counts[way], prices, 0.0)
    low, likely, high = (np.sort(each).tolist() for each in sums)
    return {
        "low": _at(low, shop.low_share),
        "likely": _at(likely, 0.5),
        "high": _at(high, shop.high_share),
    }


def triangular(share: "Numbers", low: float, likely: float, high: float) -> "Numbers":
    """Return the value below which a share of a triangular spread lies.

    It rises with every argument, so a dearer band is dearer in each single trial.

    Examples
    --------
    >>> import numpy as np
    >>> triangular(np.array([0.0, 0.25, 1.0]), 10.0, 20.0, 50.0).round(2).tolist()
    [10.0, 20.0, 50.0]
    """
    import numpy as np

    width = high - low
    if width <= 0:
        return np.full_like(share, likely)
    turn = (likely - low) / width
    rising = low + np.sqrt(share * width * (likely - low))
    falling = high - np.sqrt((1.0 - share) * width * (high - likely))
    return np.where(share <= turn, rising, falling)


def _draws(name: str, whole_job: "Numbers", shop: Shop) -> "tuple[Numbers, Numbers]":
    """Draw one line: how dear it comes, and whether it happens, for each trial.

    Every stratum is used once (Latin hypercube). Part of the spread is common to the whole job:
    a stubborn engine takes longer at every bench.
    """
    common, own = sqrt(shop.common_share), sqrt(1 - shop.common_share)
    this_line = _strata(f"{shop.seed}:{name}", shop.trials)
    amounts = _below(common * whole_job + own * this_line)
    happens = _shuffled(_middles(shop.trials), f"{shop.seed}:{name}:happens")
    return amounts, happens


def _strata(key: str, trials: int) -> "Numbers":
    return _shuffled(_normal_middles(trials), key)


def _shuffled(values: "Numbers", key: str) -> "Numbers":
    """Put values in an order that hangs on the key alone, the same on every machine."""
    import numpy as np

    seed = int.from_bytes(hashlib.sha256(key.encode()).digest()[:8], "big")
    # The raw stream is promised to stay the same from release to release; shuffling is not.
    raw = np.random.PCG64(seed).random_raw(len(values))
    ordered: Numbers = values[np.argsort(raw, kind="stable")]
    return ordered


@cache
def _middles(trials: int) -> "Numbers":
    """Middles of equal strata: inside the unit interval, so chance 1 always happens, 0 never."""
    import numpy as np

    return (np.arange(trials) + 0.5) / trials


@cache
def _normal_middles(trials: int) -> "Numbers":
    import numpy as np

    return np.array([_NORMAL.inv_cdf(float(share)) for share in _middles(trials)])


@cache
def _normal_shares() -> "tuple[Numbers, Numbers]":
    """Tabulate the normal share below a point, fine enough for the straight line between."""
    import numpy as np

    points = np.linspace(-6.0, 6.0, 2401)
    return points, np.array([_NORMAL.cdf(float(point)) for point in points])


def _below(points: "Numbers") -> "Numbers":
    import numpy as np

    at, shares = _normal_shares()
    return np.interp(points, at, shares)


def _at(ordered: Sequence[float], share: float) -> float:
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def _rounded(amount: float, shop: Shop) -> Decimal:
    return Decimal(repr(amount)).quantize(Decimal(1).scaleb(-shop.decimals))
