"""Charge temperature behind compressor and cooler."""

from planner.physics.bounds import KELVINS, within
from planner.physics.cycle.arguments import ABSOLUTE, GAUGE, NUMBER, READING
from planner.physics.cycle.limits import BAR
from planner.physics.registry import physics

ADIABATIC = 0.2857  # (gamma - 1)/gamma of air


@physics(
    returns=READING,
    citation="derived",
    validity="boost to 4 bar, one stage of compression, cooled by the air around",
    rises=("ambient_temperature", "boost"),
    falls=("ambient_pressure", "compressor_efficiency", "cooler_effectiveness"),
    ambient_temperature=READING,
    ambient_pressure=ABSOLUTE,
    boost=GAUGE,
    compressor_efficiency=NUMBER,
    cooler_effectiveness=NUMBER,
)
def cooled_charge_temperature(
    *,
    ambient_temperature: float,
    ambient_pressure: float,
    boost: float,
    compressor_efficiency: float,
    cooler_effectiveness: float,
) -> float:
    """Work out the charge temperature in the manifold from compressor and cooler.

    Parameters
    ----------
    ambient_temperature
        Of the air around, which also cools the cooler. [K]
    ambient_pressure
        Of the air around. [Pa]
    boost
        Above the air around, at the manifold. [Pa]
    compressor_efficiency
        Share of the ideal work in the real work of the compressor. [-]
    cooler_effectiveness
        Share of the possible cooling that the cooler does; 0 without a cooler. [-]

    Returns
    -------
    float
        Charge temperature in the manifold. [K]

    Raises
    ------
    OutsideValidity
        When a figure is outside its limits.

    Notes
    -----
    The ideal compressor heats air by the pressure ratio to the power 0.2857; a real one by
    that rise over its efficiency; the cooler takes its share of the rise away. Valid for
    one stage cooled by the air around; pressure lost in the cooler and heat soak are not
    counted. A measured temperature is better.

    References
    ----------
    Derived above from the adiabatic compression of air with a ratio of specific heats of 1.4.

    Examples
    --------
    >>> charge = cooled_charge_temperature(
    ...     ambient_temperature=298.15,
    ...     ambient_pressure=101325.0,
    ...     boost=0.9e5,
    ...     compressor_efficiency=0.7,
    ...     cooler_effectiveness=0.7,
    ... )
    >>> round(charge, 1)
    323.6
    """
    within("air temperature", ambient_temperature, 220.0, 330.0, KELVINS)
    within("air pressure", ambient_pressure, 0.5e5, 1.1e5, BAR)
    within("boost", boost, 0.0, 4e5, BAR)
    within("compressor efficiency", compressor_efficiency, 0.3, 0.9)
    within("cooler effectiveness", cooler_effectiveness, 0.0, 1.0)
    ideal = ((ambient_pressure + boost) / ambient_pressure) ** ADIABATIC - 1.0
    return ambient_temperature * (
        1.0 + (1.0 - cooler_effectiveness) * ideal / compressor_efficiency
    )
