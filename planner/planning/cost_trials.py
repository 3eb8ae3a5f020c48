"""Price a job many times by chance, to see what it comes to when lines turn out as they will."""

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import sqrt
from statistics import NormalDist

from planner.planning.cost_lines import Money3, RawLine
from planner.planning.shop_data import Shop

_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class Totals:
    """What the whole job comes to: rarely less, as often less as more, rarely more."""

    low: Decimal
    likely: Decimal
    high: Decimal


def totals(lines: Iterable[RawLine], shop: Shop) -> Totals:
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
    sums = [[0.0] * shop.trials for _ in range(3)]
    for line in lines:
        amounts, happens = _draws(line.id, shop)
        for way, band in enumerate((line.cheap, line.usual, line.dear)):
            _add(sums[way], band, line.counts[way], zip(amounts, happens, strict=True))
    low, likely, high = (sorted(each) for each in sums)
    return Totals(
        _at(low, shop.low_share, shop), _at(likely, 0.5, shop), _at(high, shop.high_share, shop)
    )


def _add(
    sums: list[float], band: Money3, counts: float, draws: Iterable[tuple[float, float]]
) -> None:
    """Add one line to every trial, where it happens."""
    if counts <= 0:
        return
    low, likely, high = (float(each) for each in band)
    for trial, (share, chance) in enumerate(draws):
        if chance < counts:
            sums[trial] += triangular(share, low, likely, high)


def triangular(share: float, low: float, likely: float, high: float) -> float:
    """Return the value below which a share of a triangular spread lies.

    It rises with every argument, so a dearer band is dearer in each single trial.

    Examples
    --------
    >>> [round(triangular(share, 10.0, 20.0, 50.0), 2) for share in (0.0, 0.25, 1.0)]
    [10.0, 20.0, 50.0]
    """
    width = high - low
    if width <= 0:
        return likely
    turn = (likely - low) / width
    if share <= turn:
        return low + sqrt(share * width * (likely - low))
    return high - sqrt((1 - share) * width * (high - likely))


def _draws(name: str, shop: Shop) -> tuple[list[float], list[float]]:
    """Draw one line: how dear it comes, and whether it happens, for each trial.

    Every stratum is used once (Latin hypercube). Part of the spread is common to the whole job:
    a stubborn engine takes longer at every bench.
    """
    common, own = sqrt(shop.common_share), sqrt(1 - shop.common_share)
    whole_job = _strata(f"{shop.seed}:the whole job", shop.trials)
    this_line = _strata(f"{shop.seed}:{name}", shop.trials)
    amounts = [
        _NORMAL.cdf(common * job + own * line)
        for job, line in zip(whole_job, this_line, strict=True)
    ]
    # A little inside the unit interval, so that chance 1 always happens and chance 0 never.
    happens = [(place + 0.5) / shop.trials for place in range(shop.trials)]
    random.Random(f"{shop.seed}:{name}:happens").shuffle(happens)  # noqa: S311 - repeatable
    return amounts, happens


def _strata(key: str, trials: int) -> list[float]:
    middles = [_NORMAL.inv_cdf((place + 0.5) / trials) for place in range(trials)]
    random.Random(key).shuffle(middles)  # noqa: S311 - it must come out the same every time
    return middles


def _at(ordered: Sequence[float], share: float, shop: Shop) -> Decimal:
    place = min(len(ordered) - 1, int(share * len(ordered)))
    return Decimal(repr(ordered[place])).quantize(Decimal(1).scaleb(-shop.decimals))
