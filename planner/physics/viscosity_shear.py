"""Oil in a loaded bearing: its density, and the viscosity that high shear leaves."""

from planner.physics.bounds import within
from planner.physics.registry import Q, physics
from planner.physics.viscosity import CELSIUS, D341, KINEMATIC, READING, kinematic_viscosity
from planner.units import DENSITY, NONE, TEMPERATURE, VISCOSITY, over

OIL_DENSITY = Q(DENSITY)
DENSITY_FALL = Q(over(DENSITY, TEMPERATURE))
MEASURED, HOT, SHEARED = CELSIUS + 15.0, CELSIUS + 100.0, CELSIUS + 150.0


@physics(
    returns=OIL_DENSITY,
    citation="common practice",
    validity="densities 700 to 1100 kg/m3, rises of 0 to 185 K",
    rises=("density_15",),
    falls=("density_fall", "rise"),
    density_15=OIL_DENSITY,
    density_fall=DENSITY_FALL,
    rise=Q(TEMPERATURE, "rise"),
)
def oil_density(*, density_15: float, density_fall: float, rise: float) -> float:
    """Work out the density of a warm oil.

    Parameters
    ----------
    density_15
        Density at 15 degrees Celsius, as data sheets give it. [kg/m**3]
    density_fall
        What each kelvin takes off. [kg/m**3/K]
    rise
        Temperature above 15 degrees Celsius. [K]

    Returns
    -------
    float
        Density. [kg/m**3]

    Raises
    ------
    OutsideValidity
        When the density is no oil's or the rise is outside 0 to 185 K.

    Notes
    -----
    A straight line from 15 degC. Valid for mineral and synthetic engine oils up to 200 degC.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> round(oil_density(density_15=865.0, density_fall=0.63, rise=85.0), 2)
    811.45
    """
    within("oil density at 15 degC", density_15, 700, 1100, ("kg/m3", 1.0))
    within("oil temperature above 15 degC", rise, 0, 185, ("K", 1.0))
    return density_15 - density_fall * rise


@physics(
    returns=Q(VISCOSITY),
    citation=D341,
    validity="80 to 160 degC",
    falls=("temperature",),
    empirical=True,
    viscosity_100_low=KINEMATIC,
    viscosity_100_high=KINEMATIC,
    high_shear_150=Q(VISCOSITY),
    shear_loss=Q(NONE),
    high_shear_margin=Q(NONE),
    density_15=OIL_DENSITY,
    density_fall=DENSITY_FALL,
    temperature=READING,
)
def high_shear_viscosity(
    *,
    viscosity_100_low: float,
    viscosity_100_high: float,
    high_shear_150: float,
    shear_loss: float,
    high_shear_margin: float,
    density_15: float,
    density_fall: float,
    temperature: float,
) -> float:
    """Work out the viscosity of an oil grade inside a loaded bearing.

    Parameters
    ----------
    viscosity_100_low, viscosity_100_high
        The grade's range of kinematic viscosity at 100 degrees Celsius. [m**2/s]
    high_shear_150
        The grade's least high-shear viscosity at 150 degrees Celsius. [Pa*s]
    shear_loss
        Share of the viscosity at 100 degrees that high shear takes away. [-]
    high_shear_margin
        Viscosity at 150 degrees over the grade's least. [-]
    density_15
        Density at 15 degrees Celsius. [kg/m**3]
    density_fall
        What each kelvin takes off the density. [kg/m**3/K]
    temperature
        Temperature of the oil in the film. [K]

    Returns
    -------
    float
        Dynamic viscosity at high shear. [Pa*s]

    Raises
    ------
    OutsideValidity
        When the temperature is outside 80 to 160 degC or the two points do not fit.

    Notes
    -----
    A straight line in the chart of ASTM D341 through two points: the middle of the grade's
    range at 100 degC less the shear loss, and the least high-shear viscosity at 150 degC
    times its margin. Both factors are assumed; a bottle's own data sheet goes first.
    Valid from 80 to 160 degC.

    References
    ----------
    ASTM D341, Standard practice for viscosity-temperature charts for liquid petroleum
    products; not opened. The two points are derived above from SAE J300's limits.

    Examples
    --------
    >>> viscosity = high_shear_viscosity(
    ...     viscosity_100_low=12.5e-6,
    ...     viscosity_100_high=16.3e-6,
    ...     high_shear_150=3.7e-3,
    ...     shear_loss=0.20,
    ...     high_shear_margin=1.05,
    ...     density_15=865.0,
    ...     density_fall=0.63,
    ...     temperature=393.15,
    ... )
    >>> round(viscosity * 1e3, 2)
    6.3
    """
    within("shear loss", shear_loss, 0, 0.5)
    within("margin on the high-shear viscosity", high_shear_margin, 0.9, 1.5)
    within("oil temperature", temperature, CELSIUS + 80, CELSIUS + 160, ("K", 1.0))
    density = {"density_15": density_15, "density_fall": density_fall}
    middle = (viscosity_100_low + viscosity_100_high) / 2
    sheared = high_shear_margin * high_shear_150 / oil_density(**density, rise=SHEARED - MEASURED)
    kinematic = kinematic_viscosity(
        viscosity_low=(1 - shear_loss) * middle,
        temperature_low=HOT,
        viscosity_high=sheared,
        temperature_high=SHEARED,
        temperature=temperature,
    )
    return kinematic * oil_density(**density, rise=temperature - MEASURED)
