"""Pistons, pins and rods matched by mass, and what comes off to bring all to the lightest."""

from collections.abc import Mapping

from planner.models.bench import Placed, Placing
from planner.physics.balance import bobweight
from planner.planning.bench_book import GRAM, HUNDREDTHS, BenchBook, whole
from planner.planning.pairing import Wanted, pair_up
from planner.rulebook.printing import show_number


class MassMatching:
    """Matches moving masses.

    Parameters
    ----------
    book
        Figures and parts.
    placed
        The pistons as they were put to the bores, where they were.
    """

    def __init__(self, book: BenchBook, placed: Placing | None) -> None:
        self.book, self.placed = book, placed

    def masses(self) -> Placing | None:
        """Put pins and rods to the pistons so that the moving masses are alike."""
        pistons, pins = (
            self.book.pieces.heap("pistons", "mass"),
            self.book.pieces.heap("pins", "mass"),
        )
        rods, limit = (
            self.book.pieces.heap("rods", "small_end"),
            self.book.number("piston_mass_spread"),
        )
        placed = self.placed
        if not pistons or not pins or not rods or limit is None:
            return None
        order = [each.parts[0] for each in placed.places] if placed else list(pistons)
        places = [each.where for each in placed.places] if placed and placed.places else order
        if not set(order) <= set(pistons):
            return None
        bases, heaps = (
            whole(pistons, HUNDREDTHS),
            (whole(pins, HUNDREDTHS), whole(rods, HUNDREDTHS)),
        )
        mean = _mean_sum([bases[each] for each in order], *heaps)
        # The sum piston + pin + small end is wanted alike; a sum is a base less negative parts.
        less = [{name: -mass for name, mass in heap.items()} for heap in heaps]
        found = pair_up(Wanted(tuple(bases[each] for each in order), mean), *less)
        if found is None:
            return None
        lightest, limit_text = min(found.left), show_number(limit, GRAM, self.book.names.system)
        over = found.spread > round(limit * HUNDREDTHS)
        return Placing(
            id="masses",
            title="Pistons, pins and rod small ends, matched by mass",
            unit="g",
            says="sums as near their mean as these parts allow; the rest comes off",
            places=tuple(
                Placed(
                    where=place,
                    parts=(f"piston {piston}", f"pin {pair[0]}", f"rod {pair[1]}"),
                    result=f"{self.book.gram(total)}, take {self.book.gram(total - lightest)} off",
                    value=total / 100.0,
                )
                for place, piston, pair, total in zip(
                    places, order, found.pairs, found.left, strict=True
                )
            ),
            spread=f"{self.book.gram(found.spread)}; allowed {limit_text}",
            in_order=self.book.gram(_in_order(order, bases, heaps)),
            warning="take the metal off at the balance pads and weigh again" if over else "",
        )

    def big_ends(self) -> Placing | None:
        """Say what comes off each big end to bring all to the lightest."""
        ends, limit = (
            self.book.pieces.heap("rods", "big_end"),
            self.book.number("piston_mass_spread"),
        )
        if not ends or limit is None:
            return None
        lightest = min(ends.values())
        spread = max(ends.values()) - lightest
        return Placing(
            id="big_ends",
            title="Rod big ends to the lightest",
            unit="g",
            says="the big end goes round and cannot be balanced by another part",
            places=tuple(
                Placed(
                    where=f"rod {name}",
                    parts=(name,),
                    result=f"take {self.book.gram(round((mass - lightest) * HUNDREDTHS))} off",
                    value=(mass - lightest) * 1e3,
                )
                for name, mass in ends.items()
            ),
            spread=show_number(spread, GRAM, self.book.names.system),
            warning="" if spread <= limit else "over the limit: grind at the pads only",
        )

    def weight(self, masses: Placing | None) -> Placing | None:
        """Work out the bobweight of the real parts, brought to the lightest of each kind.

        Only for a crank that does not spin bare.
        """
        symmetry = self.book.world.answers.get("crank_symmetry")
        ends = self.book.pieces.heap("rods", "big_end")
        factor, oil = self.book.number("balance_factor"), self.book.number("bobweight_oil")
        rods = self.book.number("rods_on_journal")
        if symmetry is None or symmetry.value() == "bare" or masses is None or not ends:
            return None
        if factor is None or oil is None or rods is None:
            return None
        moving = min(each.value for each in masses.places) * 1e-3
        found = bobweight(
            rods_per_pin=rods,
            rotating_mass=min(ends.values()),
            reciprocating_mass=moving,
            balance_factor=factor,
            oil_mass=oil,
        )
        text = self.book.gram(round(found * HUNDREDTHS))
        planned = self.book.names.read_text("bobweight")
        return Placing(
            id="bobweight",
            title="Bobweight of the parts in hand",
            unit="g",
            says=f"all parts brought to the lightest; the plan reckoned with {planned}",
            places=(Placed(where="each rod journal", parts=(), result=text, value=found * 1e3),),
        )


def _mean_sum(bases: list[int], *heaps: Mapping[str, int]) -> int:
    """Return the mean of the sums when the first parts of each heap are used."""
    count = len(bases)
    total = sum(bases) + sum(sum(sorted(heap.values())[:count]) for heap in heaps)
    return round(total / count)


def _in_order(
    order: list[str], bases: Mapping[str, int], heaps: tuple[dict[str, int], dict[str, int]]
) -> int:
    sums = [
        bases[piston] + pin + rod
        for piston, pin, rod in zip(order, heaps[0].values(), heaps[1].values(), strict=False)
    ]
    return max(sums) - min(sums)
