"""The volumes of the cylinder that plain sizes give."""

from math import pi

from planner.physics.bounds import MILLIMETRES, PLAIN
from planner.physics.geometry import piston_area
from planner.physics.geometry_limits import hold_positive
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH, NONE, VOLUME

_DIAMETER = Q(LENGTH, "diameter")
_LENGTH = Q(LENGTH)
_VOLUME = Q(VOLUME)


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="round bores",
    rises=("bore", "stroke"),
    bore=_DIAMETER,
    stroke=_LENGTH,
)
def swept_volume(*, bore: float, stroke: float) -> float:
    """Work out the volume one piston sweeps.

    Parameters
    ----------
    bore
        Finished bore. [m]
    stroke
        Twice the crank radius. [m]

    Returns
    -------
    float
        Swept volume of one cylinder. [m**3]

    Raises
    ------
    OutsideValidity
        When bore or stroke is not above zero.

    Notes
    -----
    pi / 4 B^2 S. A pin offset changes the stroke by less than 0.01 %; it is left out.

    References
    ----------
    Derived above from the cylinder.

    Examples
    --------
    >>> round(swept_volume(bore=0.086, stroke=0.086) * 1e6, 3)
    499.557
    """
    hold_positive("stroke", stroke, MILLIMETRES)
    return piston_area(bore=bore) * stroke


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="round bores",
    rises=("bore", "stroke", "cylinders"),
    bore=_DIAMETER,
    stroke=_LENGTH,
    cylinders=Q(NONE),
)
def displacement(*, bore: float, stroke: float, cylinders: float) -> float:
    """Work out the swept volume of the whole engine.

    Parameters
    ----------
    bore
        Finished bore. [m]
    stroke
        Twice the crank radius. [m]
    cylinders
        Number of cylinders. [-]

    Returns
    -------
    float
        Swept volume of all cylinders. [m**3]

    Raises
    ------
    OutsideValidity
        When bore, stroke or number of cylinders is not above zero.

    Notes
    -----
    `swept_volume` times the number of cylinders.

    References
    ----------
    Derived above from the cylinder.

    Examples
    --------
    >>> round(displacement(bore=0.086, stroke=0.086, cylinders=4.0) * 1e6, 1)
    1998.2
    """
    hold_positive("number of cylinders", cylinders, PLAIN)
    return cylinders * swept_volume(bore=bore, stroke=stroke)


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="gaskets with a round opening",
    rises=("gasket_bore", "gasket_thickness"),
    gasket_bore=_DIAMETER,
    gasket_thickness=_LENGTH,
)
def gasket_volume(*, gasket_bore: float, gasket_thickness: float) -> float:
    """Work out the volume inside the head gasket's opening.

    Parameters
    ----------
    gasket_bore
        Diameter of the opening in the gasket. [m]
    gasket_thickness
        Head gasket compressed thickness. [m]

    Returns
    -------
    float
        Volume of the opening. [m**3]

    Raises
    ------
    OutsideValidity
        When either size is not above zero.

    Notes
    -----
    pi / 4 times opening squared times thickness; an opening that is not round is measured
    by filling it.

    References
    ----------
    Derived above from the cylinder.

    Examples
    --------
    >>> round(gasket_volume(gasket_bore=0.087, gasket_thickness=0.001) * 1e6, 4)
    5.9447
    """
    hold_positive("gasket thickness", gasket_thickness, MILLIMETRES)
    return piston_area(bore=gasket_bore) * gasket_thickness


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="round bores",
    rises=("deck_clearance",),
    bore=_DIAMETER,
    deck_clearance=_LENGTH,
)
def deck_volume(*, bore: float, deck_clearance: float) -> float:
    """Work out the volume between the flat of the crown and the deck.

    Parameters
    ----------
    bore
        Finished bore. [m]
    deck_clearance
        Flat of the crown below the deck; negative when it stands proud. [m]

    Returns
    -------
    float
        Volume, negative when the piston stands proud. [m**3]

    Raises
    ------
    OutsideValidity
        When the bore is not above zero.

    Notes
    -----
    pi / 4 B^2 times deck clearance.

    References
    ----------
    Derived above from the cylinder.

    Examples
    --------
    >>> round(deck_volume(bore=0.086, deck_clearance=0.0002) * 1e6, 4)
    1.1618
    """
    return piston_area(bore=bore) * deck_clearance


@physics(
    returns=_VOLUME,
    citation="derived",
    validity="land smaller than the bore",
    rises=("bore", "land_height"),
    falls=("land_diameter",),
    bore=_DIAMETER,
    land_diameter=_DIAMETER,
    land_height=_LENGTH,
)
def crevice_volume(*, bore: float, land_diameter: float, land_height: float) -> float:
    """Work out the volume round the top land, down to the top of the top ring.

    Parameters
    ----------
    bore
        Finished bore. [m]
    land_diameter
        Diameter of the piston above the top ring. [m]
    land_height
        Height from the crown's edge to the top of the top ring. [m]

    Returns
    -------
    float
        Volume of the narrow ring of space. [m**3]

    Raises
    ------
    OutsideValidity
        When the land is as large as the bore, or a size is not above zero.

    Notes
    -----
    pi / 4 (B^2 - D^2) times height. Ring grooves are left out.

    References
    ----------
    Derived above from the cylinder.

    Examples
    --------
    >>> round(crevice_volume(bore=0.086, land_diameter=0.0854, land_height=0.006) * 1e6, 4)
    0.4846
    """
    hold_positive("land height", land_height, MILLIMETRES)
    hold_positive("land diameter", land_diameter, MILLIMETRES)
    hold_positive("bore less land diameter", bore - land_diameter, MILLIMETRES)
    return pi / 4.0 * (bore - land_diameter) * (bore + land_diameter) * land_height
