"""Measured pistons put to bored cylinders, and the size to hone each bore to."""

from dataclasses import replace

from planner.models.bench import Placed, Placing
from planner.planning.assignment import least_then_even
from planner.planning.bench_book import TENTHS, BenchBook
from planner.units import find_unit, to_unit


class PistonMatching:
    """Puts pistons to bores."""

    def __init__(self, book: BenchBook) -> None:
        self.book = book

    def pistons(self) -> Placing | None:
        """Put pistons to bores: the least metal, then the least from the worst, then evenly."""
        sizes, bores = (
            self.book.pieces.heap("pistons", "size"),
            self.book.pieces.heap("bores", "size"),
        )
        aim, least = self.book.target("piston_to_wall"), self.book.number("hone_least")
        if not sizes or not bores or aim is None or least is None:
            return None
        allowance = self.book.number("coating_allowance") or 0.0
        finished = {name: size - allowance + aim for name, size in sizes.items()}
        names, places = list(sizes), list(bores)
        costs = [
            [_fits(round((finished[each] - bores[place]) * TENTHS), least) for each in names]
            for place in places
        ]
        found = least_then_even(costs)
        base = Placing(
            id="pistons",
            title="Pistons to bores, hone-to size",
            unit="mm",
            says="least metal in all, then least from the worst bore, then evenly",
        )
        if found is None:
            return replace(base, warning=self._no_piston(places, costs, least))
        chosen = [names[column] for column in found]
        removed = [
            finished[part] - bores[place] for place, part in zip(places, chosen, strict=True)
        ]
        in_order = [
            finished[part] - bores[place] for place, part in zip(places, names, strict=False)
        ]
        return replace(
            base,
            places=tuple(
                Placed(
                    where=f"cylinder {place}",
                    parts=(part,),
                    result=f"hone to {self.book.mm(finished[part])}",
                    value=to_unit(finished[part], find_unit("mm")),
                    details={
                        "piston": self.book.mm(sizes[part]),
                        "bore now": self.book.mm(bores[place]),
                        "to take off": self.book.mm(metal),
                    },
                )
                for place, part, metal in zip(places, chosen, removed, strict=True)
            ),
            spread=f"{self.book.mm(max(removed) - min(removed))} from bore to bore in metal off",
            in_order=self.book.mm(max(in_order) - min(in_order)),
            left_over=tuple(name for name in names if name not in chosen),
        )

    def _no_piston(self, places: list[str], costs: list[list[int | None]], least: float) -> str:
        open_ = [
            place for place, row in zip(places, costs, strict=True) if all(x is None for x in row)
        ]
        where = f"cylinder {', '.join(open_)}" if open_ else "every cylinder at once"
        return (
            f"no choice of pistons leaves {self.book.mm(least)} to hone in {where}: "
            "the bore is too large for these pistons"
        )


def _fits(removed: int, least: float) -> int | None:
    """Return what is taken off, or nothing when it is less than cleans the bore."""
    return removed if removed >= round(least * TENTHS) else None
