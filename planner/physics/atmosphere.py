"""Air pressure and temperature at height, and gauge pressure made absolute."""

from planner.physics.bounds import within
from planner.physics.geometry_limits import BAR, METRES
from planner.physics.registry import Q, physics
from planner.units.dimension import LENGTH, PRESSURE, TEMPERATURE

# US Standard Atmosphere, 1976, the layer from sea level to 11 km.
_SEA_LEVEL_PRESSURE = 101_325.0  # Pa
_SEA_LEVEL_TEMPERATURE = 288.15  # K
_LAPSE = 0.0065  # K lost for each metre of geopotential height
_EXPONENT = 9.80665 * 28.9644 / (8314.32 * _LAPSE)
_EARTH_RADIUS = 6_356_766.0  # m, as that standard takes it

_LOWEST, _HIGHEST = -1_000.0, 11_000.0
_CITATION = "US Standard Atmosphere, 1976, layer 0 to 11 km (as ISO 2533); not opened"
_VALIDITY = "-1000 m to 11000 m above sea level"
_REMEDY = "Give the height of the road or track above sea level, in metres or feet."


@physics(
    returns=Q(TEMPERATURE, "reading"),
    citation=_CITATION,
    validity=_VALIDITY,
    falls=("altitude",),
    empirical=True,
    altitude=Q(LENGTH),
)
def standard_temperature(*, altitude: float) -> float:
    """Give the standard air temperature at a height above sea level.

    Parameters
    ----------
    altitude
        Height above sea level, as on a map. [m]

    Returns
    -------
    float
        Standard temperature, a mean over the year and the globe, not the day's. [K]

    Raises
    ------
    OutsideValidity
        Below -1000 m or above 11000 m.

    Notes
    -----
    288.15 K less 6.5 K for each kilometre of geopotential height, which allows for
    gravity falling with height. Valid to 11 km. Weather is left out.

    References
    ----------
    US Standard Atmosphere, 1976, lowest layer; the same as ISO 2533:1975. From memory,
    not opened.

    Examples
    --------
    >>> round(standard_temperature(altitude=1000.0), 3)
    281.651
    """
    return _SEA_LEVEL_TEMPERATURE - _LAPSE * _geopotential(altitude)


@physics(
    returns=Q(PRESSURE, "absolute"),
    citation=_CITATION,
    validity=_VALIDITY,
    falls=("altitude",),
    empirical=True,
    altitude=Q(LENGTH),
)
def standard_pressure(*, altitude: float) -> float:
    """Give the standard air pressure at a height above sea level.

    Parameters
    ----------
    altitude
        Height above sea level, as on a map. [m]

    Returns
    -------
    float
        Standard pressure, absolute. [Pa]

    Raises
    ------
    OutsideValidity
        Below -1000 m or above 11000 m.

    Notes
    -----
    p = p0 (T / T0)^(g0 M / (R L)) with the temperature of `standard_temperature`. Valid to
    11 km. Weather moves the real pressure by about 3 % either way.

    References
    ----------
    US Standard Atmosphere, 1976, lowest layer; the same as ISO 2533:1975. From memory,
    not opened.

    Examples
    --------
    >>> round(standard_pressure(altitude=1000.0))
    89876
    """
    ratio = standard_temperature(altitude=altitude) / _SEA_LEVEL_TEMPERATURE
    return float(_SEA_LEVEL_PRESSURE * ratio**_EXPONENT)


@physics(
    returns=Q(PRESSURE, "absolute"),
    citation=_CITATION,
    validity=_VALIDITY,
    rises=("p",),
    falls=("at",),
    empirical=True,
    p=Q(PRESSURE, "gauge"),
    at=Q(LENGTH),
)
def absolute(*, p: float, at: float) -> float:
    """Turn a gauge pressure into an absolute one at a height above sea level.

    Parameters
    ----------
    p
        Pressure above the air around, as a gauge shows it. [Pa]
    at
        Height above sea level, as on a map. [m]

    Returns
    -------
    float
        Gauge pressure plus the standard air pressure there. [Pa]

    Raises
    ------
    OutsideValidity
        Below -1000 m or above 11000 m, or when the gauge pressure is under a vacuum.

    Notes
    -----
    p_abs = p + p_air(at), `standard_pressure`. The air of the day is left out.

    References
    ----------
    Derived above from the meaning of gauge pressure and the US Standard Atmosphere, 1976.

    Examples
    --------
    >>> round(absolute(p=110000.0, at=0.0))
    211325
    """
    air = standard_pressure(altitude=at)
    within("gauge pressure", p, -air, 1e9, BAR, remedy="Give the reading of the gauge.")
    return p + air


def _geopotential(altitude: float) -> float:
    """Turn a height on a map into the geopotential height the standard uses."""
    within("altitude", altitude, _LOWEST, _HIGHEST, METRES, remedy=_REMEDY)
    return _EARTH_RADIUS * altitude / (_EARTH_RADIUS + altitude)
