"""Engine oil grades: the limits of the hot grade, from the published table."""

from planner.physics.registry import Q, outside, physics
from planner.units import KINEMATIC_VISCOSITY, NONE, VISCOSITY

# SAE J300 (2015): kinematic viscosity at 100 degC, from and to under, in mm2/s, and least
# high-shear viscosity at 150 degC in mPa s. Seen on two public pages, standard not opened.
HOT_GRADES = {
    20: (6.9, 9.3, 2.6),
    30: (9.3, 12.5, 2.9),
    40: (12.5, 16.3, 3.7),
    50: (16.3, 21.9, 3.7),
    60: (21.9, 26.1, 3.7),
}
# A 40 that begins 0W, 5W or 10W may be thinner at high shear than one that begins higher.
LIGHT_FORTY, LIGHT_WINTERS = 3.5, (0, 5, 10)
WINTERS = (0, 5, 10, 15, 20, 25)


@physics(
    returns={
        "viscosity_100_low": Q(KINEMATIC_VISCOSITY),
        "viscosity_100_high": Q(KINEMATIC_VISCOSITY),
        "high_shear_150": Q(VISCOSITY),
    },
    citation="SAE J300 (2015), engine oil viscosity classification; published, not opened",
    validity="hot grades 20, 30, 40, 50, 60; winter grades 0W to 25W",
    empirical=True,
    grade=Q(NONE),
    winter=Q(NONE),
)
def sae_hot_grade(*, grade: float, winter: float) -> dict[str, float]:
    """Look up what a hot oil grade promises.

    Parameters
    ----------
    grade
        The number behind the dash of the grade, 40 in 5W-40. [-]
    winter
        The number before the W; 25 for an oil that has none. [-]

    Returns
    -------
    dict
        viscosity_100_low and viscosity_100_high, the range at 100 degrees Celsius
        [m**2/s], and high_shear_150, the least high-shear viscosity at 150 degrees [Pa*s].

    Raises
    ------
    OutsideValidity
        When the table has no such grade.

    Notes
    -----
    The upper end of the range is not included: an oil there is of the next grade. Valid for
    grades 20 to 60; thinner ones are not for boosted engines of this sort.

    References
    ----------
    SAE J300 (2015), Engine oil viscosity classification, table 1; not opened, the table
    seen on two public pages.

    Examples
    --------
    >>> oil = sae_hot_grade(grade=40.0, winter=5.0)
    >>> round(oil["viscosity_100_low"] * 1e6, 1), round(oil["high_shear_150"] * 1e3, 1)
    (12.5, 3.5)
    """
    if grade not in HOT_GRADES or winter not in WINTERS:
        outside(
            "oil grade",
            f"{winter:g}W-{grade:g}",
            "0W to 25W and 20 to 60",
            "Choose a grade of the table, or type in the oil's own data sheet.",
        )
    low, high, sheared = HOT_GRADES[int(grade)]
    if grade == 40 and winter in LIGHT_WINTERS:
        sheared = LIGHT_FORTY
    return {
        "viscosity_100_low": low * 1e-6,
        "viscosity_100_high": high * 1e-6,
        "high_shear_150": sheared * 1e-3,
    }
