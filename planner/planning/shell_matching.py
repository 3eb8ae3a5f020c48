"""Measured shell halves put to measured journals."""

from dataclasses import dataclass, replace

from planner.models.bench import Placed, Placing
from planner.planning.bench_book import TENTHS, BenchBook, whole
from planner.planning.pairing import Paired, Wanted, pair_up


@dataclass(frozen=True, slots=True)
class Journals:
    """The journals of one set and what the rules want of them."""

    set: str
    title: str
    housing: str
    journal: str
    clearance: str
    step: str


JOURNALS = (
    Journals(
        "main",
        "Main shells, half by half",
        "main_housing_final",
        "main_journal_final",
        "main_bearing_clearance",
        "main_shells",
    ),
    Journals(
        "rod",
        "Rod shells, half by half",
        "big_end_final",
        "rod_journal_final",
        "rod_bearing_clearance",
        "rod_shells",
    ),
)


class ShellMatching:
    """Puts shell halves to the journals of one set."""

    def __init__(self, book: BenchBook) -> None:
        self.book = book

    def shells(self, journals: Journals) -> Placing | None:
        """Put shell halves to journals: on the aim, and alike."""
        uppers = self.book.pieces.heap(f"{journals.set}_shells", "upper")
        lowers = self.book.pieces.heap(f"{journals.set}_shells", "lower")
        band = self.book.band(journals.clearance)
        sizes = self._gaps(journals)
        if not uppers or not lowers or band is None or not sizes:
            return None
        low, aim, high = (round(each * TENTHS) for each in band)
        spread, apart = self.book.number("bearing_spread"), self.book.number("shell_halves_apart")
        wanted = Wanted(
            bases=tuple(round(each * TENTHS) for each in sizes.values()),
            target=aim,
            low=low,
            high=high,
            most_apart=None if apart is None else round(apart * TENTHS),
            spread=None if spread is None else round(spread * TENTHS),
        )
        heaps = whole(uppers, TENTHS), whole(lowers, TENTHS)
        base = Placing(
            id=journals.step,
            title=journals.title,
            unit="mm",
            says="nearest the aim at the worst journal, then on all; halves a step apart at most",
        )
        found = pair_up(wanted, *heaps)
        if found is None:
            return replace(base, warning=self._no_shell(journals, spread))
        return self._shells_placed(base, journals, (found, heaps), list(sizes))

    def _gaps(self, journals: Journals) -> dict[str, float]:
        """Return housing less journal for each journal, once all of them are measured."""
        facts = self.book.results.facts.inputs
        if journals.housing not in facts or journals.journal not in facts:
            return {}
        found = {}
        for item in self.book.world.items(journals.set):
            values = [
                entry.value if entry is not None else None
                for entry in (
                    facts[name].entries.get((item,))
                    for name in (journals.housing, journals.journal)
                )
            ]
            if not all(isinstance(each, int | float) for each in values):
                return {}
            housing, journal = values
            found[item] = float(housing) - float(journal)  # type: ignore[arg-type]
        return found

    def _shells_placed(
        self,
        base: Placing,
        journals: Journals,
        found: tuple[Paired, tuple[dict[str, int], dict[str, int]]],
        items: list[str],
    ) -> Placing:
        paired, (uppers, lowers) = found
        spoken = self.book.world.rulebook.sets[journals.set].called
        used = {each for pair in paired.pairs for each in pair}
        return replace(
            base,
            places=tuple(
                Placed(
                    where=f"{spoken} {item}",
                    parts=pair,
                    result=f"clearance {self.book.mm(left / TENTHS)}",
                    value=left / TENTHS * 1e3,
                    details={
                        "upper": self.book.mm(uppers[pair[0]] / TENTHS),
                        "lower": self.book.mm(lowers[pair[1]] / TENTHS),
                        "from the aim": self.book.mm((left - paired.target) / TENTHS),
                    },
                )
                for item, pair, left in zip(items, paired.pairs, paired.left, strict=True)
            ),
            spread=f"{self.book.mm(paired.spread / TENTHS)} between the journals",
            left_over=tuple(each for each in (*uppers, *lowers) if each not in used),
        )

    def _no_shell(self, journals: Journals, spread: float | None) -> str:
        apart = f", alike within {self.book.mm(spread)}" if spread else ""
        wanted = self.book.names.read_text(journals.clearance)
        return (
            f"no choice of these halves gives {wanted} on every journal{apart}: get thinner or "
            "thicker halves, or correct the journal that is off"
        )
