"""How hard a piston is driven with heat, against the engine its temperatures were fitted on."""

from planner.physics.bounds import within
from planner.physics.registry import Q, physics
from planner.units.dimension import HEAT_FLUX, NONE

_LEAST_FLUX, _MOST_FLUX = 3.0e6, 17.0e6  # W/m2
_KILOWATTS_A_SQUARE_CENTIMETRE = ("kW/cm2", 1e-7)


@physics(
    returns=Q(NONE),
    citation="wall heat flux as a power of gas flow, Heywood 1988, ch. 12; not opened",
    validity="water-cooled engines, 3 to 17 MW of brake power for each m2 of piston",
    rises=("flux", "duty"),
    flux=Q(HEAT_FLUX),
    reference_flux=Q(HEAT_FLUX),
    exponent=Q(NONE),
    duty=Q(NONE),
)
def piston_heat_factor(
    *, flux: float, reference_flux: float, exponent: float, duty: float
) -> float:
    """Work out how much hotter than the reference engine a piston is driven.

    Parameters
    ----------
    flux
        Brake power for each area of piston, all cylinders. [W/m**2]
    reference_flux
        The same of the engine the piston temperatures were fitted on. [W/m**2]
    exponent
        Power of the gas flow that the wall heat follows, 0.7 to 0.8. [-]
    duty
        Share of the full heat that the use sees: 1 on a track. [-]

    Returns
    -------
    float
        Heat factor; 1 is the reference engine at full duty. [-]

    Raises
    ------
    OutsideValidity
        When the flux is under 0.3 or over 1.7 kW/cm2, the exponent outside 0.5 to 1 or the
        duty outside 0.5 to 1.5.

    Notes
    -----
    (flux / reference)^exponent times duty: heat passed to a wall goes with the Reynolds
    number of the gas to the power 0.7 to 0.8, and gas flow goes with power. Never checked
    outside 0.3 to 1.7 kW/cm2, which is 3 to 17 MW/m2.

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, 1988, ch. 12, for the form; from
    memory. Exponent and reference are arguments: a fit, marked where they are given.

    Examples
    --------
    >>> factor = piston_heat_factor(flux=10.76e6, reference_flux=4.5e6, exponent=0.7, duty=1.0)
    >>> round(factor, 3)
    1.841
    """
    unit = _KILOWATTS_A_SQUARE_CENTIMETRE
    remedy = "Check power, bore and number of cylinders; outside it use the piston maker's sheet."
    within("brake power for each piston area", flux, _LEAST_FLUX, _MOST_FLUX, unit, remedy=remedy)
    remedy = "Use the reference the piston temperatures were fitted on."
    within("reference flux", reference_flux, _LEAST_FLUX, _MOST_FLUX, unit, remedy=remedy)
    within("heat exponent", exponent, 0.5, 1.0, remedy="Use 0.7 to 0.8.")
    within("duty", duty, 0.5, 1.5, remedy="Use a share of full heat near 1.")
    return float((flux / reference_flux) ** exponent * duty)
