"""What makes a price a quote: number, dates, deposit, tax line and the line to sign."""

from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from hashlib import sha256

from planner.models.cost import CostLine, QuoteHead
from planner.models.job import Job
from planner.planning.shop_data import Shop

_UNDATED = "not dated: write quote.date in the job"


def quote_head(job: Job, shop: Shop, likely: Decimal, lines: tuple[CostLine, ...]) -> QuoteHead:
    """Fill in the head of a quote.

    The program looks at no clock, so that the same job always gives the same paper: date and
    start stand in the job.

    Parameters
    ----------
    job
        Holds the quote's number and date.
    shop
        Deposit, tax and how long a quote stands.
    likely
        Likely total.
    lines
        Lines of the quote; a number that is not given is made from them.

    Returns
    -------
    QuoteHead
        Ready to print.
    """
    deposit = (shop.deposit_share * likely).quantize(Decimal(1), ROUND_HALF_UP)
    valid = _UNDATED
    if job.quote.date:
        last = date.fromisoformat(job.quote.date) + timedelta(days=shop.valid_days)
        valid = last.isoformat()
    return QuoteHead(
        number=job.quote.number or _number(job, lines),
        date=job.quote.date or _UNDATED,
        valid_until=valid,
        deposit=f"{deposit:f}",
        tax=_tax_words(shop),
        approval=(
            f"Work starts when this is signed and the deposit is paid. An extra above "
            f"{shop.approval_over:,.0f} {shop.currency} is told first and waits for a signature."
        ),
    )


def _number(job: Job, lines: tuple[CostLine, ...]) -> str:
    """Make a number from the job's reference and what is quoted: other lines, other number."""
    text = "\n".join(f"{line.id} {line.low} {line.likely} {line.high}" for line in lines)
    code = sha256(text.encode()).hexdigest()[:6].upper()
    return f"{job.reference or 'JOB'}-{code}"


def _tax_words(shop: Shop) -> str:
    if not shop.tax_share:
        return "no tax"
    return f"tax {shop.tax_share:.2%} on {shop.tax_on}"
