"""Figures of a plateau-honed surface, from a filtered trace across it."""

from planner.physics.bounds import within
from planner.physics.readings_grid import Grid, filled
from planner.physics.registry import Q, outside, physics
from planner.units.dimension import LENGTH, NONE

_PROFILE = Q(LENGTH, grid=True)
_LENGTH = Q(LENGTH)
_SHARE = Q(NONE)

_FEWEST_FOR_CURVE = 100
_FEWEST_FOR_MEANS = 25
_WINDOW = 0.4  # share of the material-ratio curve its straight part is looked for over


@physics(
    returns={"rk": _LENGTH, "rpk": _LENGTH, "rvk": _LENGTH, "mr1": _SHARE, "mr2": _SHARE},
    citation="ISO 13565-2:1996, now ISO 21920-2:2021; not opened",
    validity="100 heights or more, equally spaced, filtered for a surface with deep valleys",
    profile=_PROFILE,
)
def rk_parameters(*, profile: Grid) -> dict[str, float]:
    """Work out core, peak and valley figures of a surface from its trace.

    Parameters
    ----------
    profile
        Heights along the trace, equally spaced, already filtered; rows follow each other. [m]

    Returns
    -------
    rk
        Core roughness depth: what carries the ring once it has run in. [m]
    rpk
        Reduced peak height: what wears off first. [m]
    rvk
        Reduced valley depth: what holds oil. [m]
    mr1
        Share of material above the core. [-]
    mr2
        Share of material above the foot of the core. [-]

    Raises
    ------
    OutsideValidity
        When there are fewer than 100 heights, or the trace is level.

    Notes
    -----
    Heights sorted downwards make the material-ratio curve. Over the 40 % of it with the
    flattest chord a least-squares line is drawn; where it meets 0 and 100 % are the
    heights of the core, Rk apart. The material above is put into a triangle of equal area
    on base Mr1, its height is Rpk; the voids below into one on base 1 - Mr2, Rvk.
    The trace has to be filtered first by the two-step way of ISO 13565-1: a plain filter
    bends the mean line into the valleys.

    References
    ----------
    ISO 13565-2:1996, clause 4, and ISO 21920-2:2021; from memory, not opened.

    Examples
    --------
    >>> found = rk_parameters(
    ...     profile=(
    ...         (-0.1e-6, 0.1e-6, 1.0e-6, 0.5e-6, -0.5e-6, 0.2e-6, -0.1e-6, 0.3e-6),
    ...         (-0.5e-6, 0.3e-6, 0.3e-6, 0.8e-6, 0.3e-6, 0.4e-6, -0.5e-6, 1.2e-6),
    ...         (-0.7e-6, 0.7e-6, 0.1e-6, -0.2e-6, -0.1e-6, -0.1e-6, 0.4e-6, 0.2e-6),
    ...         (-4.7e-6, -0.6e-6, 0.2e-6, -0.2e-6, 0.6e-6, -0.7e-6, 0.1e-6, -1.6e-6),
    ...         (-0.5e-6, -0.2e-6, 0.3e-6, 0.7e-6, 0.6e-6, -0.2e-6, -0.2e-6, 0.1e-6),
    ...         (0.5e-6, 0.6e-6, -0.1e-6, -0.1e-6, -0.2e-6, -0.1e-6, 0.1e-6, 0.1e-6),
    ...         (1.1e-6, -0.0e-6, 0.1e-6, 0.4e-6, -0.2e-6, 0.0e-6, 0.2e-6, 0.6e-6),
    ...         (-0.4e-6, 0.8e-6, 0.0e-6, 0.3e-6, 0.6e-6, 0.5e-6, 0.7e-6, 0.3e-6),
    ...         (0.2e-6, 0.3e-6, -0.2e-6, 0.8e-6, -0.1e-6, -1.0e-6, 1.1e-6, -2.2e-6),
    ...         (-0.3e-6, 1.0e-6, 0.1e-6, 0.7e-6, -0.4e-6, 0.1e-6, -1.8e-6, -0.7e-6),
    ...         (-0.2e-6, 0.2e-6, -1.0e-6, -0.3e-6, -0.3e-6, 0.7e-6, -0.4e-6, 0.1e-6),
    ...         (-0.5e-6, -0.5e-6, -1.6e-6, -0.3e-6, 0.2e-6, -0.1e-6, 0.8e-6, 0.3e-6),
    ...         (0.3e-6, 0.7e-6, 0.4e-6, 0.2e-6),
    ...     )
    ... )
    >>> round(found["rk"] * 1e6, 2), round(found["rpk"] * 1e6, 2), round(found["rvk"] * 1e6, 2)
    (1.26, 0.5, 1.92)
    """
    import numpy as np

    curve = np.sort(np.array(_trace(profile, _FEWEST_FOR_CURVE)))[::-1]
    count = len(curve)
    share = (np.arange(count) + 0.5) / count
    window = round(_WINDOW * count)
    drop = curve[: count - window] - curve[window:]
    start = int(np.argmin(drop))
    flat = slice(start, start + window + 1)
    slope, level = np.polyfit(share[flat] - 0.5, curve[flat], 1)
    core = -float(slope)
    if core <= 0.0:
        outside("core of the trace", "level", "a trace with some roughness", "Trace it again.")
    top, foot = float(level) + core / 2.0, float(level) - core / 2.0
    peaks, valleys = curve[curve > top] - top, foot - curve[curve < foot]
    return {
        "rk": core,
        "rpk": 2.0 * float(np.mean(peaks)) if len(peaks) else 0.0,
        "rvk": 2.0 * float(np.mean(valleys)) if len(valleys) else 0.0,
        "mr1": len(peaks) / count,
        "mr2": 1.0 - len(valleys) / count,
    }


@physics(
    returns={"ra": _LENGTH, "rq": _LENGTH, "rz": _LENGTH},
    citation="ISO 4287:1997, now ISO 21920-2:2021; not opened",
    validity="25 heights or more, equally spaced, filtered, over five cut-off lengths",
    profile=_PROFILE,
)
def profile_roughness(*, profile: Grid) -> dict[str, float]:
    """Work out the mean and ten-point figures of a surface from its trace.

    Parameters
    ----------
    profile
        Heights along the trace, equally spaced, already filtered; rows follow each other. [m]

    Returns
    -------
    ra
        Mean distance from the mean line. [m]
    rq
        Root of the mean squared distance from the mean line. [m]
    rz
        Mean, over five equal parts, of highest less lowest height. [m]

    Raises
    ------
    OutsideValidity
        When there are fewer than 25 heights.

    Notes
    -----
    The mean line is the mean of the whole trace. Ra alone never accepts a plateau finish:
    a smooth bore without valleys has the same Ra.

    References
    ----------
    ISO 4287:1997 and ISO 21920-2:2021; from memory, not opened.

    Examples
    --------
    >>> found = profile_roughness(
    ...     profile=(
    ...         (-0.1e-6, 0.1e-6, 1.0e-6, 0.5e-6, -0.5e-6),
    ...         (0.2e-6, -0.1e-6, 0.3e-6, -0.5e-6, 0.3e-6),
    ...         (0.3e-6, 0.8e-6, 0.3e-6, 0.4e-6, -0.5e-6),
    ...         (1.2e-6, -0.7e-6, 0.7e-6, 0.1e-6, -0.2e-6),
    ...         (-0.1e-6, -0.1e-6, 0.4e-6, 0.2e-6, -4.7e-6),
    ...     )
    ... )
    >>> round(found["ra"] * 1e6, 3), round(found["rz"] * 1e6, 3)
    (0.578, 2.12)
    """
    import numpy as np

    trace = np.array(_trace(profile, _FEWEST_FOR_MEANS))
    trace = trace - np.mean(trace)
    parts = np.array_split(trace, 5)
    return {
        "ra": float(np.mean(np.abs(trace))),
        "rq": float(np.sqrt(np.mean(trace**2))),
        "rz": float(np.mean([np.ptp(part) for part in parts])),
    }


def _trace(profile: Grid, fewest: int) -> list[float]:
    """Put the rows of a trace one after the other; refuse too few heights."""
    heights = [height for row in filled(profile) for height in row]
    remedy = "Trace further, or with a finer step."
    within("number of heights", len(heights), fewest, 1e7, remedy=remedy)
    return heights
