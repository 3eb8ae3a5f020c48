"""The one check that the formulas share: a value inside its limits, or a refusal in words."""

from planner.physics.registry import outside

MILLIMETRES = ("mm", 1e3)
MEGAPASCALS = ("MPa", 1e-6)
KELVINS = ("K", 1.0)
PLAIN = ("", 1.0)


def within(
    argument: str,
    value: float,
    low: float,
    high: float,
    unit: tuple[str, float] = PLAIN,
    *,
    remedy: str = "Check the figure and its unit; the part may have been measured elsewhere.",
) -> None:
    """Refuse a value outside its limits, and one that is not a number.

    Parameters
    ----------
    argument
        What the value is, in shop words.
    value, low, high
        The value and its limits, SI.
    unit
        The unit to show it in and how many of it make one SI unit.
    remedy
        What the reader can do instead.

    Raises
    ------
    OutsideValidity
        When the value is not between the limits, both included.

    Examples
    --------
    >>> within("small-end width", 0.022, 0.005, 0.06, MILLIMETRES)
    """
    if not low <= value <= high:
        name, factor = unit
        outside(
            argument,
            f"{value * factor:.6g} {name}".strip(),
            f"{low * factor:.6g} to {high * factor:.6g} {name}".strip(),
            remedy,
        )
