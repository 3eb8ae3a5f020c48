"""The octane number that counts."""

from planner.physics.bounds import within
from planner.physics.cycle.arguments import NUMBER
from planner.physics.registry import physics


@physics(
    returns=NUMBER,
    citation="derived",
    validity="research and motor octane 75 to 130, weight 0 to 1",
    rises=("research",),
    falls=("margin",),
    research=NUMBER,
    motor=NUMBER,
    octane_weight=NUMBER,
    margin=NUMBER,
)
def octane_number(*, research: float, motor: float, octane_weight: float, margin: float) -> float:
    """Work out the octane number that the knock law is given.

    Parameters
    ----------
    research, motor
        Research and motor octane of the fuel. [-]
    octane_weight
        How far the motor octane counts: 0 is research alone, 0.5 the index on the pump. [-]
    margin
        Taken off for a bad batch; 0 for a normal day. [-]

    Returns
    -------
    float
        Octane number. [-]

    Raises
    ------
    OutsideValidity
        When a figure is outside 75 to 130, or the weight outside 0 to 1.

    Notes
    -----
    Research less weight times the difference of research and motor, less the margin. Valid
    for one number in place of the two; boosted engines ask less of the motor octane than
    half, so half is on the careful side.

    References
    ----------
    Derived above; with a weight of one half it is the antiknock index of ASTM D4814, from
    memory, not opened.

    Examples
    --------
    >>> octane_number(research=98.0, motor=88.0, octane_weight=0.5, margin=2.0)
    91.0
    """
    within("research octane", research, 75.0, 130.0)
    within("motor octane", motor, 75.0, 130.0)
    within("weight of motor octane", octane_weight, 0.0, 1.0)
    return research - octane_weight * (research - motor) - margin
