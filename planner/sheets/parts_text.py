"""The buyer's list, as text and as a table for a spreadsheet."""

import csv
from io import StringIO

from planner.models.plan import Plan
from planner.models.steps import Part
from planner.sheets.layout import Lines, heading, wrapped

COLUMNS = (
    "order",
    "part",
    "grade",
    "quantity",
    "quantity_low",
    "price_low",
    "price_high",
    "currency",
    "lead_days_low",
    "lead_days_high",
    "ordered_at",
    "needed_at",
    "must_have",
    "because",
    "source",
    "id",
)
_ORDERS = ("now", "hold", "in hand")
# A spreadsheet takes a cell that starts with one of these for a formula.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def part_lines(plan: Plan, audience: str) -> Lines:
    """Tell the parts: what goes out now, what is held and why, what has come.

    Parameters
    ----------
    plan
        The plan document.
    audience
        The customer reads names and reasons, the others what each part must have.

    Returns
    -------
    list of str
        Lines; none when the plan lists no parts.
    """
    if not plan.parts:
        return []
    lines = heading("Parts", "=")
    for order in _ORDERS:
        for each in plan.parts:
            if each.order == order:
                lines += _part(each, audience, plan.cost.currency if plan.cost else "")
    return lines


def _part(part: Part, audience: str, currency: str) -> Lines:
    order = {"now": "ORDER NOW", "hold": "HOLD", "in hand": "IN HAND"}[part.order]
    grade = part.grade or (f"one of {', '.join(part.could_be)}" if part.could_be else "")
    what = f"{_count(part)} x {part.title}{f': {grade}' if grade else ''}"
    lines = wrapped(f"{what}  [{part.source}]", "", f"{order}  ")
    if part.where:
        lines += wrapped(", ".join(part.where), "    ", "for ")
    if audience != "customer":
        figures = [f"{name.replace('_', ' ')} {text}" for name, text in part.must_have.items()]
        lines += wrapped("; ".join(figures), "    ", "must have: ") if figures else []
        bought = _bought(part, currency)
        lines += wrapped(bought, "    ") if bought else []
    told = "; ".join(filter(None, (part.because, part.says)))
    return [*lines, *wrapped(told, "    ")]


def _count(part: Part) -> str:
    if part.quantity_low == part.quantity:
        return str(part.quantity)
    return f"{part.quantity_low} to {part.quantity}"


def _bought(part: Part, currency: str) -> str:
    told = []
    if part.price is not None:
        told.append(f"{part.price[0]} to {part.price[1]} {currency} for 1".replace("  ", " "))
    if part.lead_days is not None:
        told.append(f"{part.lead_days[0]:g} to {part.lead_days[1]:g} days to come")
    if part.needed_at:
        told.append(f"needed at {', '.join(part.needed_at)}")
    return "; ".join(told)


def parts_csv(plan: Plan) -> str:
    """Write the parts as comma-separated values, one line for each, with a head.

    Parameters
    ----------
    plan
        The plan document.

    Returns
    -------
    str
        Text with line breaks as the format's usual description has them.
    """
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for part in plan.parts:
        writer.writerow([_safe(cell) for cell in _cells(part, plan)])
    return out.getvalue()


def _cells(part: Part, plan: Plan) -> list[str]:
    price = part.price or ("", "")
    lead = ("", "") if part.lead_days is None else tuple(f"{each:g}" for each in part.lead_days)
    return [
        part.order,
        part.title,
        part.grade or " or ".join(part.could_be),
        str(part.quantity),
        str(part.quantity_low),
        *price,
        plan.cost.currency if plan.cost else "",
        *lead,
        part.ordered_at,
        " ".join(part.needed_at),
        "; ".join(f"{name}: {text}" for name, text in part.must_have.items()),
        part.because,
        part.source,
        part.id,
    ]


def _safe(cell: str) -> str:
    return f"'{cell}" if cell.startswith(_FORMULA) else cell
