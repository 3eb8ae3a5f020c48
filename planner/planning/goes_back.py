"""Parts to return to their seller, and why."""

from statistics import median

from planner.models.bench import GoesBack
from planner.planning.bench_book import BenchBook

FEWEST = 3
"""Pistons of a set below which there is no middle one."""


class Returns:
    """Finds what goes back."""

    def __init__(self, book: BenchBook) -> None:
        self.book = book

    def goes_back(self) -> tuple[GoesBack, ...]:
        """List what to return to its seller, and why."""
        return (*self._papers(), *self._strays(), *self._rings())

    def _papers(self) -> list[GoesBack]:
        answer = self.book.world.answers.get("piston_papers")
        entry = answer.entries.get(()) if answer is not None else None
        found = []
        if entry is not None and entry.refused and self._pistons_here():
            found.append(GoesBack(part="pistons, the set", because=entry.refused))
        ordered = self.book.world.answers.get("piston_alloy_as_ordered")
        if (
            not found
            and ordered is not None
            and ordered.value() == "return"
            and self._pistons_here()
        ):
            told = (
                f"their alloy is not the one ordered ({self.book.names.read_text('piston_alloy')})"
            )
            found.append(GoesBack(part="pistons, the set", because=told))
        return found

    def _pistons_here(self) -> bool:
        facts = self.book.results.facts.inputs
        return bool(self.book.pieces.heap("pistons", "size")) or "pistons_measured" in facts

    def _strays(self) -> list[GoesBack]:
        """Find pistons too far from the middle one of their set."""
        sizes, limit = (
            dict(self.book.pieces.heap("pistons", "size")),
            self.book.number("piston_off_set"),
        )
        fact = self.book.results.facts.inputs.get("pistons_measured")
        if not sizes and fact is not None:
            sizes = {
                f"of cylinder {key[0]}": float(entry.value)
                for key, entry in fact.entries.items()
                if isinstance(entry.value, int | float)
            }
        if len(sizes) < FEWEST or limit is None:
            return []
        middle = median(sizes.values())
        return [
            GoesBack(
                part=f"piston {name}",
                because=f"{self.book.mm(abs(size - middle))} from the middle of its set, "
                f"{self.book.mm(middle)}; allowed {self.book.mm(limit)}",
            )
            for name, size in sizes.items()
            if abs(size - middle) > limit * (1 + 1e-9)
        ]

    def _rings(self) -> list[GoesBack]:
        answer, wide = (
            self.book.world.answers.get(x) for x in ("top_ring_route", "top_ring_too_wide")
        )
        if answer is None or wide is None:
            return []
        return [
            GoesBack(
                part=f"top ring of cylinder {key[0]}",
                because=f"its gap is {self.book.item_mm(wide.value(key))} wider than is accepted",
            )
            for key, entry in answer.entries.items()
            if entry.value == "return"
        ]
