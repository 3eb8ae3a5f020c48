"""Screw threads: the area that carries, and the diameter the flanks work at."""

import math

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, physics
from planner.units import AREA, LENGTH

NOMINAL = Q(LENGTH, "diameter")
PITCH = Q(LENGTH)


@physics(
    returns=Q(AREA),
    citation="ISO 898-1, nominal stress area; from memory, not opened",
    validity="60 degree metric threads, 3 to 40 mm, pitch 0.05 to 0.25 of the diameter",
    rises=("nominal",),
    falls=("pitch",),
    nominal=NOMINAL,
    pitch=PITCH,
)
def metric_thread_stress_area(*, nominal: float, pitch: float) -> float:
    r"""Work out the stress area of a metric thread.

    Parameters
    ----------
    nominal
        Nominal (outside) diameter of the thread. [m]
    pitch
        Pitch of the thread. [m]

    Returns
    -------
    float
        Area that carries tension. [m**2]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    A circle half way between pitch and root diameter,
    :math:`\pi/4 \, (d - 0.9382 P)^2`. Valid for 60 degree metric threads.

    References
    ----------
    ISO 898-1, Mechanical properties of fasteners, nominal stress area; from memory, not
    opened.

    Examples
    --------
    >>> area = metric_thread_stress_area(nominal=0.010, pitch=0.0015)
    >>> round(area * 1e6, 1)
    58.0
    """
    _check(nominal, pitch)
    return math.pi / 4 * (nominal - 0.9382 * pitch) ** 2


@physics(
    returns=Q(AREA),
    citation="Shigley's Mechanical Engineering Design, table 8-2",
    validity="unified threads, 1/8 to 1 1/2 in, pitch 0.03 to 0.25 of the diameter",
    rises=("nominal",),
    falls=("pitch",),
    nominal=NOMINAL,
    pitch=PITCH,
)
def inch_thread_stress_area(*, nominal: float, pitch: float) -> float:
    r"""Work out the stress area of a unified inch thread.

    Parameters
    ----------
    nominal
        Nominal (outside) diameter of the thread. [m]
    pitch
        Pitch of the thread: one inch over the threads per inch. [m]

    Returns
    -------
    float
        Area that carries tension. [m**2]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    :math:`\pi/4 \, (d - 0.9743 P)^2`. The inch standard takes slightly more off than the
    metric one. Valid for unified threads.

    References
    ----------
    Shigley's Mechanical Engineering Design, table 8-2; from memory, not opened.

    Examples
    --------
    >>> area = inch_thread_stress_area(nominal=0.0111125, pitch=0.00127)
    >>> round(area * 1e6, 1)
    76.6
    """
    _check(nominal, pitch)
    return math.pi / 4 * (nominal - 0.9743 * pitch) ** 2


@physics(
    returns=NOMINAL,
    citation="derived from the 60 degree thread triangle",
    validity="60 degree threads, pitch 0.03 to 0.25 of the diameter",
    rises=("nominal",),
    falls=("pitch",),
    nominal=NOMINAL,
    pitch=PITCH,
)
def thread_pitch_diameter(*, nominal: float, pitch: float) -> float:
    r"""Work out the pitch diameter of a 60 degree thread.

    Parameters
    ----------
    nominal
        Nominal (outside) diameter of the thread. [m]
    pitch
        Pitch of the thread. [m]

    Returns
    -------
    float
        Diameter at which thread and gap are equally wide. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The thread triangle is :math:`P \sqrt{3} / 2` high and its tip is cut by an eighth, so
    the pitch line lies 3/8 of it below the outside: :math:`d - 3 \sqrt{3} P / 8`.

    References
    ----------
    Derived above from the thread triangle.

    Examples
    --------
    >>> round(thread_pitch_diameter(nominal=0.009, pitch=0.001) * 1e3, 3)
    8.35
    """
    _check(nominal, pitch)
    return nominal - 3 * math.sqrt(3) / 8 * pitch


def _check(nominal: float, pitch: float) -> None:
    """Refuse a thread no engine fastener has, and a count given for a pitch."""
    within("thread diameter", nominal, 0.003, 0.04, MILLIMETRES)
    within(
        "thread pitch",
        pitch,
        0.03 * nominal,
        0.25 * nominal,
        MILLIMETRES,
        remedy="Give the distance from thread to thread; for inch threads 1 in over the count.",
    )
