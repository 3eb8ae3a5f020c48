"""Which rows take up which slots of one column, as bit masks: bit r stands for row r."""

from collections.abc import Sequence

from planner.rulebook.axes import Run


class RangeUnion:
    """The union of masks over any stretch of slots, in a few steps however long it is."""

    def __init__(self, masks: Sequence[int]) -> None:
        self.size = len(masks)
        self.tree = [0] * self.size + list(masks)
        for node in range(self.size - 1, 0, -1):
            self.tree[node] = self.tree[2 * node] | self.tree[2 * node + 1]

    def over(self, run: Run) -> int:
        """Give the union of the masks from one slot to another, both included."""
        low, high = run[0] + self.size, run[1] + self.size + 1
        union = 0
        while low < high:
            if low & 1:
                union |= self.tree[low]
                low += 1
            if high & 1:
                high -= 1
                union |= self.tree[high]
            low, high = low >> 1, high >> 1
        return union


def rows_by_slot(count: int, runs_by_row: Sequence[Sequence[Run]]) -> list[int]:
    """Turn the stretches each row takes up into the mask of rows for each slot."""
    turns = [0] * (count + 1)
    for row, runs in enumerate(runs_by_row):
        for first, last in runs:
            turns[first] ^= 1 << row
            turns[last + 1] ^= 1 << row
    by_slot, mask = [], 0
    for turn in turns[:count]:
        mask ^= turn
        by_slot.append(mask)
    return by_slot
