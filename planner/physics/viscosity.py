"""Oil viscosity against temperature, from two points of its data sheet."""

import math

from planner.physics.bounds import within
from planner.physics.registry import Q, outside, physics
from planner.units import KINEMATIC_VISCOSITY, TEMPERATURE

KINEMATIC = Q(KINEMATIC_VISCOSITY)
READING = Q(TEMPERATURE, "reading")
CELSIUS = 273.15
CENTISTOKES = ("mm2/s", 1e6)
# ASTM D341 was fitted to viscosities in mm2/s, above 2 of them.
SQUARE_MILLIMETRE, SHIFT, LEAST = 1e-6, 0.7, 2e-6
D341 = "ASTM D341, viscosity-temperature charts for liquid petroleum; published, not opened"


@physics(
    returns=KINEMATIC,
    citation=D341,
    validity="viscosities above 2 mm2/s, -30 to 200 degC",
    falls=("temperature",),
    empirical=True,
    viscosity_low=KINEMATIC,
    temperature_low=READING,
    viscosity_high=KINEMATIC,
    temperature_high=READING,
    temperature=READING,
)
def kinematic_viscosity(
    *,
    viscosity_low: float,
    temperature_low: float,
    viscosity_high: float,
    temperature_high: float,
    temperature: float,
) -> float:
    r"""Work out an oil's viscosity at any temperature from two known points.

    Parameters
    ----------
    viscosity_low, viscosity_high
        Kinematic viscosity at the lower and at the higher temperature. [m**2/s]
    temperature_low, temperature_high
        The two temperatures, usually 40 and 100 degrees Celsius. [K]
    temperature
        Temperature asked for. [K]

    Returns
    -------
    float
        Kinematic viscosity. [m**2/s]

    Raises
    ------
    OutsideValidity
        When a viscosity is 2 mm2/s or less, or a temperature outside -30 to 200 degC.

    Notes
    -----
    :math:`\log \log (\nu + 0.7) = A - B \log T`, viscosity in mm2/s and temperature in
    kelvin, logarithms to base ten; A and B follow from the two points. The oil is taken
    without shear: polymer-thickened oils lose some of it in a bearing. Valid above 2 mm2/s,
    from -30 to 200 degC.

    References
    ----------
    ASTM D341, Standard practice for viscosity-temperature charts for liquid petroleum
    products; not opened, the relation seen in a worked sheet.

    Examples
    --------
    >>> viscosity = kinematic_viscosity(
    ...     viscosity_low=100e-6,
    ...     temperature_low=313.15,
    ...     viscosity_high=14.5e-6,
    ...     temperature_high=373.15,
    ...     temperature=393.15,
    ... )
    >>> round(viscosity * 1e6, 3)
    9.533
    """
    for name, kelvin in (
        ("lower temperature", temperature_low),
        ("higher temperature", temperature_high),
        ("oil temperature", temperature),
    ):
        _check_temperature(name, kelvin)
    _check_viscosity(viscosity_low)
    _check_viscosity(viscosity_high)
    if not (temperature_low + 1 < temperature_high and viscosity_low > viscosity_high):
        outside(
            "pair of viscosities",
            f"{viscosity_low * 1e6:.6g} mm2/s at {temperature_low - CELSIUS:.6g} degC and "
            f"{viscosity_high * 1e6:.6g} mm2/s at {temperature_high - CELSIUS:.6g} degC",
            "an oil that thins as it warms",
            "Give the colder point first, as on the data sheet.",
        )
    thick, thin = _double_log(viscosity_low), _double_log(viscosity_high)
    colder, hotter = math.log10(temperature_low), math.log10(temperature_high)
    fall = (thick - thin) / (hotter - colder)
    shifted = 10**10 ** (thick - fall * (math.log10(temperature) - colder))
    found = (shifted - SHIFT) * SQUARE_MILLIMETRE
    _check_viscosity(found)
    return found


def _double_log(viscosity: float) -> float:
    """Give the chart's height of a viscosity."""
    return math.log10(math.log10(viscosity / SQUARE_MILLIMETRE + SHIFT))


def _check_viscosity(viscosity: float) -> None:
    """Refuse a viscosity the chart was not made for."""
    within(
        "kinematic viscosity",
        viscosity,
        LEAST,
        1e-1,
        CENTISTOKES,
        remedy="Below 2 mm2/s the chart needs terms left out here; ask for a cooler oil.",
    )


def _check_temperature(name: str, kelvin: float) -> None:
    """Refuse a temperature outside the oil's working range."""
    within(
        name,
        kelvin,
        CELSIUS - 30,
        CELSIUS + 200,
        ("K", 1.0),
        remedy="Give a temperature between -30 and 200 degC.",
    )
