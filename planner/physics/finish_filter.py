"""The filter that makes a raw trace of a plateau-honed bore ready for its Rk figures."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.geometry_limits import hold_positive
from planner.physics.readings_grid import filled

if TYPE_CHECKING:
    import numpy as np

# Share of the cut-off that sets the width of the Gaussian weight: sqrt(ln 2 / pi), so that a
# wave of the cut-off's length comes through at half its height.
_ALPHA = 0.46971863934982566


def filtered_profile(
    *, heights: Sequence[float], spacing: float, cut_off: float
) -> tuple[tuple[float, ...]]:
    """Take form and waviness out of a trace without bending its mean line into the valleys.

    Parameters
    ----------
    heights
        Heights along the trace as the instrument gives them, tilt and all. [m]
    spacing
        Distance from one height to the next. [m]
    cut_off
        Length of wave above which nothing is roughness; 0.8 mm for a honed bore. [m]

    Returns
    -------
    tuple
        One row of roughness heights, half a cut-off shorter at both ends; the form that
        `rk_parameters` and `profile_roughness` take. [m]

    Raises
    ------
    OutsideValidity
        When the trace is shorter than three cut-offs, or there are fewer than 20 heights
        to a cut-off.

    Notes
    -----
    A straight line is taken out by least squares. A Gaussian mean line of the cut-off is
    drawn; what lies below it is lifted onto it; the mean line of what results is the
    reference, and the roughness is the first trace less this reference.

    References
    ----------
    ISO 13565-1:1996 for the two steps, ISO 16610-21 for the Gaussian weight; from memory,
    not opened.

    Examples
    --------
    >>> level = filtered_profile(heights=[1e-6] * 100, spacing=1e-5, cut_off=2e-4)
    >>> round(max(map(abs, level[0])), 12)
    0.0
    """
    import numpy as np

    filled((tuple(heights),))
    hold_positive("spacing of the heights", spacing, MILLIMETRES)
    remedy = "Trace with a finer step, or give the cut-off in the right unit."
    within("heights to a cut-off", cut_off / spacing, 20.0, 1e6, remedy=remedy)
    length = spacing * (len(heights) - 1)
    remedy = "Trace further: five cut-offs and half of one at both ends are usual."
    within("length of the trace", length, 3.0 * cut_off, 1.0, MILLIMETRES, remedy=remedy)
    trace = np.array(heights, dtype=float)
    place = np.linspace(-1.0, 1.0, len(trace))
    trace = trace - np.polyval(np.polyfit(place, trace, 1), place)
    first = _mean_line(trace, spacing, cut_off)
    reference = _mean_line(np.maximum(trace, first), spacing, cut_off)
    edge = round(cut_off / 2.0 / spacing)
    return (tuple((trace - reference)[edge : len(trace) - edge].tolist()),)


def _mean_line(trace: "np.ndarray", spacing: float, cut_off: float) -> "np.ndarray":
    """Give the Gaussian mean line; near the ends the weight that is left is made whole."""
    import numpy as np

    reach = round(cut_off / spacing)
    place = np.arange(-reach, reach + 1) * spacing / (_ALPHA * cut_off)
    weight = np.exp(-np.pi * place**2)
    whole = np.convolve(np.ones(len(trace)), weight, mode="same")
    return np.convolve(trace, weight, mode="same") / whole
