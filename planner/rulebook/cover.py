"""Search for a case that no box covers.

A box is a tuple of slot masks, one for each column. The search halves the space at the
bounds of the boxes it still has to look at, so its work grows with the number of boxes
rather than with the number of cases.
"""

from collections.abc import Sequence

from planner.rulebook.axes import first_run

Box = tuple[int, ...]

STEPS = 2_000_000
"""Boxes looked at before a search gives up: some seconds."""


class TooTangled(Exception):  # noqa: N818 - a signal inside the proof, never shown as an error
    """The search ran out of steps."""


class Budget:
    """Steps left for the searches of one table."""

    def __init__(self, steps: int = STEPS) -> None:
        self.left = steps

    def spend(self, steps: int) -> None:
        """Take steps, or stop the search when there are none left."""
        self.left -= steps
        if self.left < 0:
            raise TooTangled


def meets(left: Box, right: Box) -> bool:
    """Tell whether two boxes share a case."""
    for a, b in zip(left, right, strict=True):  # noqa: SIM110 - twice as fast as all() here
        if not a & b:
            return False
    return True


def covers(outer: Box, inner: Box) -> bool:
    """Tell whether one box holds every case of another."""
    for a, b in zip(outer, inner, strict=True):  # noqa: SIM110 - twice as fast as all() here
        if a & b != b:
            return False
    return True


def volume(box: Box) -> int:
    """Count the cases in a box."""
    total = 1
    for mask in box:
        total *= mask.bit_count()
    return total


def uncovered(box: Box, boxes: Sequence[Box], budget: Budget) -> Box | None:
    """Find a part of a box that none of the boxes touches.

    Parameters
    ----------
    box
        The space to cover.
    boxes
        What is to cover it.
    budget
        Steps left.

    Returns
    -------
    Box or None
        A part no box touches, or None when all of it is covered.

    Raises
    ------
    TooTangled
        When the budget runs out first.
    """
    open_parts = [(box, boxes)]
    while open_parts:
        part, near = open_parts.pop()
        budget.spend(len(near) + 1)
        near = [each for each in near if meets(each, part)]
        if not near:
            return part
        if any(covers(each, part) for each in near):
            continue
        below, above = _halves(part, near)
        open_parts += [(above, near), (below, near)]
    return None


def grown(box: Box, domain: Box, boxes: Sequence[Box]) -> Box:
    """Widen an uncovered box, column by column, as far as it stays uncovered."""
    wide = list(box)
    for at, mask in enumerate(box):
        taken = 0
        for each in boxes:
            if all(a & b for c, (a, b) in enumerate(zip(each, wide, strict=True)) if c != at):
                taken |= each[at]
        wide[at] = _run_around(domain[at] & ~taken, mask)
    return tuple(wide)


def _run_around(free: int, inside: int) -> int:
    """Give the unbroken stretches of free slots that the inside lies in."""
    kept = 0
    while free:
        first, last = first_run(free)
        run = ((1 << (last - first + 1)) - 1) << first
        kept |= run if run & inside else 0
        free &= ~run
    return kept


def _halves(part: Box, near: Sequence[Box]) -> tuple[Box, Box]:
    """Split a part that no near box covers, at the middle one of their bounds in a column.

    The column with the most bounds is the one that sets most boxes apart.
    """
    bounds: list[list[int]] = [_bounds(mask, near, at) for at, mask in enumerate(part)]
    at = max(range(len(part)), key=lambda each: len(bounds[each]))
    middle = sorted(bounds[at])[len(bounds[at]) // 2]
    below = part[at] & ((1 << middle) - 1)
    return (
        (*part[:at], below, *part[at + 1 :]),
        (*part[:at], part[at] & ~below, *part[at + 1 :]),
    )


def _bounds(mask: int, near: Sequence[Box], at: int) -> list[int]:
    """List the slots of a column's part where a near box begins, ends or breaks off."""
    low, high = mask & -mask, mask.bit_length()
    found = []
    for each in near:
        inside = each[at] & mask
        if inside == mask:
            continue
        if (start := inside & -inside) != low:
            found.append(start.bit_length() - 1)
        if (end := inside.bit_length()) != high:
            found.append(_next_in(mask, end))
        elif start == low:
            hole = mask & ~inside
            found.append((hole & -hole).bit_length() - 1)
    return found


def _next_in(mask: int, slot: int) -> int:
    """Give the first slot of a mask from a slot on."""
    rest = mask >> slot
    return slot + (rest & -rest).bit_length() - 1
