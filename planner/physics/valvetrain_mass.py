"""What a valve spring has to move: the masses of the valve train, as felt at the valve."""

from planner.physics.bounds import within
from planner.physics.registry import Q, physics
from planner.units import MASS, NONE

FACTOR = Q(NONE)
MASS_OF_PART = Q(MASS)


@physics(
    returns=MASS_OF_PART,
    citation="derived; a third of the spring after Rayleigh",
    validity="one follower, stiff parts",
    rises=("valve_mass", "retainer_mass", "follower_mass", "follower_ratio", "spring_mass"),
    valve_mass=MASS_OF_PART,
    retainer_mass=MASS_OF_PART,
    follower_mass=MASS_OF_PART,
    follower_ratio=FACTOR,
    spring_mass=MASS_OF_PART,
)
def valve_train_mass(
    *,
    valve_mass: float,
    retainer_mass: float,
    follower_mass: float,
    follower_ratio: float,
    spring_mass: float,
) -> float:
    """Work out the mass that a valve spring has to turn round, as felt at the valve.

    Parameters
    ----------
    valve_mass, retainer_mass
        Valve, and retainer with its locks. [kg]
    follower_mass
        Bucket, finger or lifter; of a finger, its inertia over the valve arm squared. [kg]
    follower_ratio
        Speed of the follower over that of the valve; 1 for a bucket. [-]
    spring_mass
        All springs on this valve. [kg]

    Returns
    -------
    float
        Effective mass. [kg]

    Raises
    ------
    OutsideValidity
        When an argument lies outside the range under Notes, or is not a number.

    Notes
    -----
    Motion energies added: valve and retainer whole, the follower times its ratio squared,
    and of the spring a third, because its coils move from nothing to full speed.

    References
    ----------
    Derived above from kinetic energy; the third of the spring is Rayleigh's, derived there
    from speed that grows evenly along the spring.

    Examples
    --------
    >>> mass = valve_train_mass(
    ...     valve_mass=0.045,
    ...     retainer_mass=0.012,
    ...     follower_mass=0.040,
    ...     follower_ratio=1.0,
    ...     spring_mass=0.045,
    ... )
    >>> round(mass * 1e3)
    112
    """
    within("follower ratio", follower_ratio, 0, 2)
    moving = valve_mass + retainer_mass + follower_mass * follower_ratio**2
    return moving + spring_mass / 3
