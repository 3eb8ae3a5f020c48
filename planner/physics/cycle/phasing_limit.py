"""How late the burn may be allowed to come."""

from planner.physics.cycle.arguments import ANGLE, GAUGE, LATEST
from planner.physics.registry import physics


@physics(
    returns=ANGLE,
    citation="derived",
    validity="any boost from none up",
    rises=("boost", "latest_unboosted", "latest_slope", "latest_ever"),
    boost=GAUGE,
    latest_unboosted=ANGLE,
    latest_slope=LATEST["latest_slope"],
    latest_ever=ANGLE,
)
def latest_phasing(
    *, boost: float, latest_unboosted: float, latest_slope: float, latest_ever: float
) -> float:
    """Work out the latest phasing that is accepted at a boost.

    Parameters
    ----------
    boost
        Above the air around. [Pa]
    latest_unboosted, latest_ever
        Latest phasing allowed without boost, and at any boost. [rad]
    latest_slope
        How much later it may be for each unit of boost. [rad/Pa]

    Returns
    -------
    float
        Crank angle after firing top centre with half the charge burned. [rad]

    Notes
    -----
    A boosted engine is run later than best torque as a matter of course, one without boost
    is not; without this the ratio would jump where boost begins. Valid from no boost up.

    References
    ----------
    Common practice, no source; the slope is fitted so that the model meets the ratio that
    practice gives for premium petrol at 0.9 bar.

    Examples
    --------
    >>> latest = latest_phasing(
    ...     boost=0.9e5, latest_unboosted=0.1745329, latest_slope=1.745329e-6, latest_ever=0.45
    ... )
    >>> round(latest, 3)
    0.332
    """
    return min(latest_ever, latest_unboosted + latest_slope * boost)
