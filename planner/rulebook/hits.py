"""Hit policies: how many rows of a table may match, and which of them answer."""

from collections.abc import Callable, Sequence
from enum import Enum

from planner.errors import Place, Problem, nearest


class Hit(Enum):
    """How the rows of a table share its cases; the value is the word a rule writes."""

    UNIQUE = "unique"
    ANY = "any"
    FIRST = "first"
    PRIORITY = "priority"
    COLLECT = "collect"
    COLLECT_MIN = "collect min"
    COLLECT_MAX = "collect max"
    COLLECT_SUM = "collect sum"
    COLLECT_COUNT = "collect count"

    @property
    def collects(self) -> bool:
        """Whether every matching row has its say."""
        return self.value.startswith("collect")

    @property
    def must_be_complete(self) -> bool:
        """Whether each case needs a row: nothing collected is no names, a count or sum of 0."""
        return not self.collects or self in (Hit.COLLECT_MIN, Hit.COLLECT_MAX)


def parse_hit(text: str, place: Place | None) -> Hit | Problem:
    """Read a hit policy as a rule writes it.

    Parameters
    ----------
    text
        ``unique``, ``any``, ``first``, ``priority``, ``collect``, or collect with ``min``,
        ``max``, ``sum`` or ``count``.
    place
        Where it stands.

    Returns
    -------
    Hit or Problem
        The policy, or what to write in its place.
    """
    words = " ".join(text.split())
    allowed = [each.value for each in Hit]
    if words in allowed:
        return Hit(words)
    offer = nearest(words, allowed) or _ALONE.get(words)
    hint = f"did you mean {offer}? " if offer else ""
    return Problem(f"hit is {words[:40]!r}", f"{hint}allowed: {', '.join(allowed)}", place)


_ALONE = {word: f"collect {word}" for word in ("min", "max", "sum", "count")}

_GATHERERS: dict[Hit, Callable[[Sequence[float]], float]] = {
    Hit.COLLECT_MIN: min,
    Hit.COLLECT_MAX: max,
    Hit.COLLECT_SUM: sum,
    Hit.COLLECT_COUNT: len,
}


def gather(hit: Hit, numbers: Sequence[float]) -> float:
    """Give the one number that a collect table makes of its matching rows' numbers.

    Parameters
    ----------
    hit
        One of the four policies that collect into a number.
    numbers
        The matching rows' numbers; for a count only how many there are matters.

    Examples
    --------
    >>> gather(Hit.COLLECT_MAX, [0.04, 0.06])
    0.06
    """
    return float(_GATHERERS[hit](numbers))
