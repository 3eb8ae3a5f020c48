"""The price of a plan: lines, three columns that add up, options apart, and the budget."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

from planner.models.cost import Approval, Cost, CostLine, OptionPrice
from planner.models.job import Job
from planner.planning.budget import held_against
from planner.planning.cost_columns import column
from planner.planning.cost_lines import CostLines, Money3, RawLine
from planner.planning.cost_trials import totals
from planner.planning.names import Names
from planner.planning.part_needs import PartNeed
from planner.planning.quote import quote_head
from planner.planning.shop_data import PricedOption, Shop
from planner.planning.triggers import Triggers
from planner.rulebook.results import Called
from planner.rulebook.values import OneOf

ZERO = Decimal(0)
_SAYS = (
    "Low, likely and high are for the whole job; each line takes its share of the range, so that "
    "every column adds up. A line alone can still come out at its own least or most."
)


class Pricing:
    """Prices a plan.

    Parameters
    ----------
    shop
        Rates, prices and chances.
    names
        Values of the plan.
    called
        Operations of the plan in working order.
    """

    def __init__(self, shop: Shop, names: Names, called: Mapping[str, Called]) -> None:
        self.shop, self.names, self.called = shop, names, called
        self.triggers = Triggers(names, called)
        self.step = Decimal(1).scaleb(-shop.decimals)

    def cost(self, job: Job, needs: Iterable[PartNeed]) -> Cost:
        """Return the price with everything a quote needs."""
        maker = CostLines(self.shop, self.triggers, self.called)
        raw = maker.lines(needs, frozenset(job.progress))
        lines = self._lines(raw)
        low, likely, high = (
            sum((Decimal(getattr(line, name)) for line in lines), ZERO)
            for name in ("low", "likely", "high")
        )
        shown = (f"{low:f}", f"{likely:f}", f"{high:f}")
        return Cost(
            currency=self.shop.currency,
            low=shown[0],
            likely=shown[1],
            high=shown[2],
            lines=lines,
            options=tuple(self._option(each) for each in self.shop.options),
            excluded=self.shop.exclusions,
            not_priced=tuple(maker.not_priced),
            approvals=self._approvals(raw),
            budget=held_against(job.budget, shown, lines, self.shop),
            quote=quote_head(job, self.shop, likely, lines),
            trials=self.shop.trials,
            seed=self.shop.seed,
            common_share=self.shop.common_share,
            says=_SAYS,
        )

    def _lines(self, raw: Sequence[RawLine]) -> tuple[CostLine, ...]:
        """Work out the columns with tax in them, then take the tax out into a line of its own."""
        taxed = [line for line in raw if self._is_taxed(line)]
        gross = [self._with_tax(line) if line in taxed else line for line in raw]
        alone = [line.alone() for line in gross]
        whole = totals(gross, self.shop)
        columns = [
            list(column(alone, total, self.shop.decimals).lines)
            for total in (whole.low, whole.likely, whole.high)
        ]
        places = [place for place, line in enumerate(raw) if line in taxed]
        taxes = [self._take_tax(each, places) for each in columns]
        lines = [
            self._line(line, low, likely, high)
            for line, low, likely, high in zip(raw, *columns, strict=True)
        ]
        return (*lines, *self._tax_line(taxes, taxed))

    def _is_taxed(self, line: RawLine) -> bool:
        if not self.shop.tax_share:
            return False
        return self.shop.tax_on == "everything" or line.kind == "part"

    def _with_tax(self, line: RawLine) -> RawLine:
        factor = 1 + self.shop.tax_share
        return replace(
            line,
            cheap=_times(line.cheap, factor),
            usual=_times(line.usual, factor),
            dear=_times(line.dear, factor),
        )

    def _take_tax(self, lines: list[Decimal], places: Sequence[int]) -> Decimal:
        """Take the tax out of some lines of a column and return it; nothing is lost or made."""
        gross = sum((lines[place] for place in places), ZERO)
        net = (gross / (1 + self.shop.tax_share)).quantize(self.step, ROUND_HALF_EVEN)
        for place in places:
            share = lines[place] / (1 + self.shop.tax_share)
            lines[place] = share.quantize(self.step, ROUND_HALF_EVEN)
        if places:
            left = net - sum((lines[place] for place in places), ZERO)
            lines[max(places, key=lambda place: lines[place])] += left
        return gross - net

    def _tax_line(self, taxes: Sequence[Decimal], taxed: Sequence[RawLine]) -> list[CostLine]:
        if not taxed:
            return []
        least, usual, most = (
            self._rounded(sum((line.alone()[part] for line in taxed), ZERO) * self.shop.tax_share)
            for part in range(3)
        )
        low, likely, high = (f"{each:f}" for each in taxes)
        return [
            CostLine(
                kind="tax",
                group="tax",
                id="tax",
                what=f"Tax {self.shop.tax_share:.2%} on {self.shop.tax_on}",
                low=low,
                likely=likely,
                high=high,
                alone=(least, usual, most),
                source="demo",
            )
        ]

    def _line(self, line: RawLine, low: Decimal, likely: Decimal, high: Decimal) -> CostLine:
        least, usual, most = (self._rounded(each) for each in line.alone())
        return CostLine(
            kind=line.kind,
            group=line.group,
            id=line.id,
            what=line.what,
            low=f"{low:f}",
            likely=f"{likely:f}",
            high=f"{high:f}",
            alone=(least, usual, most),
            quantity=line.quantity,
            rate=line.rate,
            perhaps=line.perhaps,
            source=line.source,
        )

    def _rounded(self, amount: Decimal) -> str:
        return f"{amount.quantize(self.step, ROUND_HALF_UP):f}"

    def _approvals(self, raw: Iterable[RawLine]) -> tuple[Approval, ...]:
        """List what may come on top and is large enough to be signed for."""
        return tuple(
            Approval(id=line.id, what=line.what, high=self._rounded(line.dear[2]))
            for line in raw
            if line.perhaps and line.dear[2] > self.shop.approval_over
        )

    def _option(self, option: PricedOption) -> OptionPrice:
        book = self.names.rulebook
        maker = CostLines(self.shop, self.triggers, {})
        lines = [
            line
            for name in option.operations
            if name in book.operations
            for line in maker.of_step(_as_called(name, self.names))
        ]
        low = sum((line.dear[0] for line in lines), ZERO)
        high = sum((line.dear[2] for line in lines), ZERO)
        if option.price is not None:
            low, high = low + option.price[0], high + option.price[1]
        decision = book.decisions.get(option.id)
        return OptionPrice(
            id=option.id,
            title=decision.means if decision else option.id.replace("_", " "),
            state=self._state(option),
            low=self._rounded(low),
            high=self._rounded(high),
            operations=option.operations,
        )

    def _state(self, option: PricedOption) -> str:
        """Say whether an option is in the price, and what the rules say of it."""
        steps = [self.called.get(name) for name in option.operations]
        if all(step is not None and not step.perhaps for step in steps):
            return "included"
        if option.id not in self.names.rulebook.results:
            return "not called for"
        entries = self.names.world.entries(self.names.ref(option.id))
        value = next((entry.value for entry in entries.values()), None)
        words = value.words if isinstance(value, OneOf) else (value,)
        if any(word in option.chosen_at for word in words):
            return "included" if len(words) == 1 else "perhaps included"
        told = [str(word).replace("_", " ") for word in words if isinstance(word, str)]
        return " or ".join(told) if told else "not called for"


def _times(band: Money3, factor: Decimal) -> Money3:
    return band[0] * factor, band[1] * factor, band[2] * factor


def _as_called(name: str, names: Names) -> Called:
    """Return an operation as if it were in the plan, to price it."""
    return Called(names.rulebook.operations[name], False, (), (), (), {})  # noqa: FBT003 - positional record
