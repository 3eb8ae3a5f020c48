"""What grinding does to a crank: overlap, section, hardened layer, and growth in nitriding."""

from planner.physics.bounds import MILLIMETRES, within
from planner.physics.registry import Q, outside, physics
from planner.units import LENGTH, NONE

DIAMETER = Q(LENGTH, "diameter")
PLAIN_LENGTH = Q(LENGTH)


@physics(
    returns=PLAIN_LENGTH,
    citation="derived",
    validity="journals 20 to 150 mm, strokes 30 to 250 mm",
    rises=("main_journal", "rod_journal"),
    falls=("stroke",),
    main_journal=DIAMETER,
    rod_journal=DIAMETER,
    stroke=PLAIN_LENGTH,
)
def journal_overlap(*, main_journal: float, rod_journal: float, stroke: float) -> float:
    """Work out how far main and rod journal overlap, seen from the end of the crank.

    Parameters
    ----------
    main_journal, rod_journal
        Diameters of the two journals. [m]
    stroke
        Stroke. [m]

    Returns
    -------
    float
        Overlap; below zero only the web joins them. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Half the sum of the diameters less half the stroke. It falls by the mean of the two
    undersizes. A crank with little overlap bends in its webs and depends on its fillets.
    Valid for journals of 20 to 150 mm and strokes of 30 to 250 mm.

    References
    ----------
    Derived above from the geometry of two circles.

    Examples
    --------
    >>> overlap = journal_overlap(main_journal=0.055, rod_journal=0.048, stroke=0.086)
    >>> round(overlap * 1e3, 2)
    8.5
    """
    _check_journal("main journal", main_journal)
    _check_journal("rod journal", rod_journal)
    within("stroke", stroke, 0.03, 0.25, MILLIMETRES)
    return (main_journal + rod_journal - stroke) / 2


@physics(
    returns=Q(NONE),
    citation="derived",
    validity="ground size 0.9 to 1 of the standard one",
    rises=("standard",),
    falls=("ground",),
    standard=DIAMETER,
    ground=DIAMETER,
)
def section_stress_ratio(*, standard: float, ground: float) -> float:
    """Work out by what factor bending and torsion stress of a ground journal rises.

    Parameters
    ----------
    standard, ground
        Journal diameter before and after grinding. [m]

    Returns
    -------
    float
        Stress after over stress before; 1 is unchanged. [-]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    The section modulus of a solid journal goes with the cube of the diameter. The fillet
    is taken to keep its radius; a smaller one costs more than the diameter does.
    Valid for ground sizes of 0.9 to 1 of the standard.

    References
    ----------
    Derived above from the section modulus of a circle.

    Examples
    --------
    >>> round(section_stress_ratio(standard=0.048, ground=0.0475), 3)
    1.032
    """
    _check_journal("standard journal", standard)
    if not 0.9 * standard <= ground <= standard * (1 + 1e-9):
        outside(
            "ground journal",
            f"{ground * 1e3:.6g} mm",
            f"0.9 to 1 of the standard size, {standard * 1e3:.6g} mm",
            "Give the diameter after grinding; a crank cut further is not worth saving.",
        )
    return (standard / ground) ** 3


@physics(
    returns=PLAIN_LENGTH,
    citation="derived",
    validity="undersizes 0 to 3 mm on diameter",
    rises=("hardened_depth",),
    falls=("undersize",),
    hardened_depth=PLAIN_LENGTH,
    undersize=PLAIN_LENGTH,
)
def hardened_depth_left(*, hardened_depth: float, undersize: float) -> float:
    """Work out how much of a journal's hardened layer grinding leaves.

    Parameters
    ----------
    hardened_depth
        Depth of the layer that still counts as hard, from the original surface. [m]
    undersize
        What grinding takes off the diameter. [m]

    Returns
    -------
    float
        Depth left, on the radius; zero or below is through the layer. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Grinding takes half the undersize from each side. A nitrided layer is a few tenths of a
    millimetre in all and its hard part less, so most undersizes go through it and the crank
    must be nitrided again; induction hardening goes millimetres deep.

    References
    ----------
    Derived above as a difference.

    Examples
    --------
    >>> left = hardened_depth_left(hardened_depth=0.15e-3, undersize=0.25e-3)
    >>> round(left * 1e3, 3)
    0.025
    """
    within("hardened depth", hardened_depth, 0, 0.02, MILLIMETRES)
    within("undersize", undersize, 0, 3e-3, MILLIMETRES)
    return hardened_depth - undersize / 2


@physics(
    returns=DIAMETER,
    citation="derived",
    validity="growth 0 to 0.05 mm on diameter",
    rises=("finished",),
    falls=("growth",),
    finished=DIAMETER,
    growth=PLAIN_LENGTH,
)
def journal_before_nitriding(*, finished: float, growth: float) -> float:
    """Work out the size to grind a journal to before it is nitrided.

    Parameters
    ----------
    finished
        Journal diameter wanted when all is done. [m]
    growth
        What nitriding adds to the diameter, less what polishing takes off again. [m]

    Returns
    -------
    float
        Diameter to grind to. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Nitriding makes the skin swell. A journal ground to its finished size comes out of the
    furnace too big. Journals that are not ground grow too, unless they are masked.

    References
    ----------
    Derived above as a difference.

    Examples
    --------
    >>> size = journal_before_nitriding(finished=0.049742, growth=0.010e-3)
    >>> round(size * 1e3, 3)
    49.732
    """
    _check_journal("finished journal", finished)
    within("growth in nitriding", growth, 0, 0.05e-3, MILLIMETRES)
    return finished - growth


@physics(
    returns=DIAMETER,
    citation="derived",
    validity="growth and polish 0 to 0.05 mm on diameter",
    rises=("journal", "growth"),
    falls=("polish",),
    journal=DIAMETER,
    growth=PLAIN_LENGTH,
    polish=PLAIN_LENGTH,
)
def journal_after_nitriding(*, journal: float, growth: float, polish: float) -> float:
    """Work out the size of a journal after nitriding and polishing.

    Parameters
    ----------
    journal
        Journal diameter going into the furnace. [m]
    growth
        What nitriding adds to the diameter. [m]
    polish
        What polishing takes off the diameter. [m]

    Returns
    -------
    float
        Diameter when done. [m]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Size plus growth less polish. Use the largest growth expected against the upper limit:
    mains that were in limits can leave the furnace too big.

    References
    ----------
    Derived above as a sum.

    Examples
    --------
    >>> size = journal_after_nitriding(journal=0.059990, growth=0.015e-3, polish=0.005e-3)
    >>> round(size * 1e3, 3)
    60.0
    """
    _check_journal("journal", journal)
    within("growth in nitriding", growth, 0, 0.05e-3, MILLIMETRES)
    within("polish", polish, 0, 0.05e-3, MILLIMETRES)
    return journal + growth - polish


def _check_journal(name: str, journal: float) -> None:
    """Refuse a journal no car engine has."""
    within(name, journal, 0.02, 0.15, MILLIMETRES)
