"""Parts in hand that would cure a failed fit: measured pistons that suit a bore as it is."""

from collections.abc import Mapping
from dataclasses import replace

from planner.datafiles.nodes import Mapping as Block
from planner.datafiles.nodes import Node
from planner.models.asbuilt import Cure, ItemVerdict, Verification
from planner.physics.verdicts import verdict
from planner.planning.bench_book import BenchBook
from planner.planning.names import Names
from planner.planning.pieces import read_pieces
from planner.rulebook.results import Results

BORE_FITS = ("finished_bore", "piston_to_wall")
EXCHANGE = "exchange"


def with_parts(
    found: Verification, root: Node, results: Results, names: Names
) -> tuple[Cure, ...]:
    """Name, for each cure that exchanges a piston, the pistons in hand that would do.

    Parameters
    ----------
    found
        The verification with its cures.
    root
        The job as read; its parts on the bench are looked through.
    results
        Clearances wanted.
    names
        Prints values.

    Returns
    -------
    tuple of Cure
        The same cures, those of the bores with their parts.
    """
    held = root.get("parts_in_hand") if isinstance(root, Block) else None
    book = BenchBook(
        results, names, read_pieces(held.get("pieces") if isinstance(held, Block) else None)
    )
    bores = {
        each.where: each for fit in found.fits if fit.id == "finished_bore" for each in fit.items
    }
    return tuple(
        replace(each, parts=_pistons(book, bores, each.where))
        if each.metal == EXCHANGE and each.fit in BORE_FITS
        else each
        for each in found.cures
    )


def _pistons(book: BenchBook, bores: Mapping[str, ItemVerdict], where: str) -> tuple[str, ...]:
    """List pistons whose clearance in this bore would be proved."""
    bore, band = bores.get(where), book.band("piston_to_wall")
    sure, coverage = book.number("fit_uncertainty"), book.number("guard_coverage")
    if bore is None or bore.low is None or bore.high is None or band is None:
        return ()
    if sure is None or coverage is None:
        return ()
    allowance = book.number("coating_allowance") or 0.0
    low, _, high = band
    told = []
    for name, size in book.pieces.heap("pistons", "size").items():
        ends = [each * 1e-3 - size + allowance for each in (bore.low, bore.high)]
        proved = [verdict(x, low, high, uncertainty=sure, coverage=coverage) for x in ends]
        if set(proved) == {"conform"}:
            told.append(f"piston {name}, {book.mm(size)}, leaves {book.mm(sum(ends) / 2)}")
    return tuple(told)
