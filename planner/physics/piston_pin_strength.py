"""The whole strength check of one piston pin: stresses put together, and the margin."""

import math

from planner.physics.bounds import MEGAPASCALS, within
from planner.physics.pin_ring import pin_hoop_stress, pin_ovalisation
from planner.physics.piston_pin import (
    BORE,
    GAUGE,
    KOLCHIN,
    OUTSIDE,
    PLAIN_LENGTH,
    STRESS,
    pin_bending_stress,
    pin_shear_stress,
)
from planner.physics.piston_pin_pressure import pin_boss_pressure, pin_small_end_pressure
from planner.physics.registry import Q, outside, physics
from planner.units import LENGTH, NONE

LOADS = ("bore", "pressure")


@physics(
    returns=Q(NONE),
    citation="Goodman line; Shigley's Mechanical Engineering Design, fatigue; not opened",
    validity="a load that goes from nothing to its peak and back; fatigue below tensile strength",
    rises=("tensile_strength", "fatigue_strength"),
    falls=("peak_stress",),
    peak_stress=STRESS,
    tensile_strength=STRESS,
    fatigue_strength=STRESS,
)
def pulsating_safety(
    *, peak_stress: float, tensile_strength: float, fatigue_strength: float
) -> float:
    r"""Work out the margin against fatigue of a stress that pulses from nothing to a peak.

    Parameters
    ----------
    peak_stress
        Highest equivalent stress of the cycle. [Pa]
    tensile_strength
        Tensile strength of the finished part. [Pa]
    fatigue_strength
        Fully reversed fatigue strength of the finished part, surface and size counted. [Pa]

    Returns
    -------
    float
        Factor by which the load could grow; 1 is the limit. [-]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Mean and alternating stress are both half the peak. On the Goodman line
    :math:`1/n = \sigma_a / S_e + \sigma_m / S_u`.

    References
    ----------
    Goodman's line as in Shigley's Mechanical Engineering Design, chapter on fatigue
    failure; from memory, not opened.

    Examples
    --------
    >>> safety = pulsating_safety(
    ...     peak_stress=672e6, tensile_strength=1700e6, fatigue_strength=650e6
    ... )
    >>> round(safety, 2)
    1.4
    """
    within("peak stress", peak_stress, 1e3, 1e11, MEGAPASCALS)
    within("tensile strength", tensile_strength, 100e6, 4000e6, MEGAPASCALS)
    if not 0 < fatigue_strength <= tensile_strength:
        outside(
            "fatigue strength",
            f"{fatigue_strength / 1e6:.6g} MPa",
            f"0 to the tensile strength, {tensile_strength / 1e6:.6g} MPa",
            "Take both figures from one data sheet.",
        )
    return 2 / (peak_stress / fatigue_strength + peak_stress / tensile_strength)


@physics(
    returns={
        "pin_safety": Q(NONE),
        "pin_ovalisation": Q(LENGTH),
        "pin_bending_stress": STRESS,
        "pin_shear_stress": STRESS,
        "pin_combined_stress": STRESS,
        "pin_boss_pressure": STRESS,
        "pin_small_end_pressure": STRESS,
    },
    citation=KOLCHIN,
    validity="inside over outside diameter 0.35 to 0.75",
    rises={
        "pin_safety": ("wall", "small_end_width", "tensile_strength", "fatigue_strength"),
        "pin_ovalisation": (*LOADS, "outside"),
        "pin_bending_stress": (*LOADS, "length", "boss_gap"),
        "pin_shear_stress": LOADS,
        "pin_combined_stress": (*LOADS, "boss_gap"),
        "pin_boss_pressure": (*LOADS, "boss_gap"),
        "pin_small_end_pressure": LOADS,
    },
    falls={
        "pin_safety": (*LOADS, "boss_gap"),
        "pin_ovalisation": ("wall", "length", "elastic_modulus"),
        "pin_bending_stress": ("outside", "wall", "small_end_width"),
        "pin_shear_stress": ("outside", "wall"),
        "pin_combined_stress": ("wall", "small_end_width"),
        "pin_boss_pressure": ("outside", "length"),
        "pin_small_end_pressure": ("outside", "small_end_width"),
    },
    bore=BORE,
    pressure=GAUGE,
    outside=OUTSIDE,
    wall=PLAIN_LENGTH,
    length=PLAIN_LENGTH,
    boss_gap=PLAIN_LENGTH,
    small_end_width=PLAIN_LENGTH,
    elastic_modulus=STRESS,
    tensile_strength=STRESS,
    fatigue_strength=STRESS,
)
def pin_strength(
    *,
    bore: float,
    pressure: float,
    outside: float,
    wall: float,
    length: float,
    boss_gap: float,
    small_end_width: float,
    elastic_modulus: float,
    tensile_strength: float,
    fatigue_strength: float,
) -> dict[str, float]:
    r"""Check one piston pin: fatigue margin, oval growth, stresses and bearing pressures.

    Parameters
    ----------
    bore
        Finished bore. [m]
    pressure
        Highest cylinder pressure that the parts are to stand. [Pa]
    outside, wall, length
        Outside diameter, wall at the middle and overall length of the pin. [m]
    boss_gap
        Clear distance between the two pin bosses. [m]
    small_end_width
        Width of the rod's small end. [m]
    elastic_modulus
        Young's modulus of the pin. [Pa]
    tensile_strength, fatigue_strength
        Of the pin's steel as treated, from its supplier. [Pa]

    Returns
    -------
    dict
        pin_safety against fatigue [-]; pin_ovalisation, the growth sideways [m]; and
        pin_bending_stress, pin_shear_stress, pin_combined_stress, pin_boss_pressure and
        pin_small_end_pressure [Pa].

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Two points are critical: the outer face in line with the load, where bending and hoop
    stress meet, and the inner face across it, where hoop stress and shear meet. The
    combined stress is the larger von Mises stress of the two, and it pulses from nothing
    to its peak. Bending peaks in the middle, shear at the bosses, so the second point is
    on the safe side. Inertia relief is left out.
    Valid for inside over outside diameter 0.35 to 0.75.

    References
    ----------
    A. Kolchin and V. Demidov, Design of Automotive Engines (Mir, 1984), piston pin; from
    memory, not opened. The combination is derived above.

    Examples
    --------
    >>> pin = pin_strength(
    ...     bore=0.086,
    ...     pressure=12e6,
    ...     outside=0.022,
    ...     wall=0.0055,
    ...     length=0.058,
    ...     boss_gap=0.026,
    ...     small_end_width=0.022,
    ...     elastic_modulus=206e9,
    ...     tensile_strength=1700e6,
    ...     fatigue_strength=650e6,
    ... )
    >>> round(pin["pin_safety"], 2), round(pin["pin_combined_stress"] / 1e6)
    (1.4, 672)
    """
    bending = pin_bending_stress(
        bore=bore,
        pressure=pressure,
        outside=outside,
        wall=wall,
        length=length,
        boss_gap=boss_gap,
        small_end_width=small_end_width,
    )
    shear = pin_shear_stress(bore=bore, pressure=pressure, outside=outside, wall=wall)
    hoop = pin_hoop_stress(bore=bore, pressure=pressure, outside=outside, wall=wall, length=length)
    crown = math.sqrt(bending**2 - bending * hoop["outer_crown"] + hoop["outer_crown"] ** 2)
    side = math.sqrt(hoop["inner_side"] ** 2 + 3 * shear**2)
    combined = max(crown, side)
    return {
        "pin_safety": pulsating_safety(
            peak_stress=combined,
            tensile_strength=tensile_strength,
            fatigue_strength=fatigue_strength,
        ),
        "pin_ovalisation": pin_ovalisation(
            bore=bore,
            pressure=pressure,
            outside=outside,
            wall=wall,
            length=length,
            elastic_modulus=elastic_modulus,
        ),
        "pin_bending_stress": bending,
        "pin_shear_stress": shear,
        "pin_combined_stress": combined,
        "pin_boss_pressure": pin_boss_pressure(
            bore=bore, pressure=pressure, outside=outside, length=length, boss_gap=boss_gap
        ),
        "pin_small_end_pressure": pin_small_end_pressure(
            bore=bore, pressure=pressure, outside=outside, small_end_width=small_end_width
        ),
    }
