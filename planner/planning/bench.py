"""Everything that can be said of the parts in hand before metal is cut."""

from planner.datafiles.nodes import Mapping, Node
from planner.models.bench import Bench
from planner.planning.bench_book import BenchBook
from planner.planning.chances import chances
from planner.planning.goes_back import Returns
from planner.planning.mass_matching import MassMatching
from planner.planning.names import Names
from planner.planning.pieces import read_pieces
from planner.planning.piston_matching import PistonMatching
from planner.planning.shell_matching import JOURNALS, ShellMatching
from planner.rulebook.results import Results


def bench(root: Node, results: Results, names: Names) -> Bench:
    """Put the parts in hand to their places and predict how the build will come out.

    Parameters
    ----------
    root
        The job as read.
    results
        What the rulebook said of it.
    names
        Prints values.

    Returns
    -------
    Bench
        Placings, what goes back, and the chance that each clearance conforms.

    Raises
    ------
    ProblemsFound
        With every slip in the list of parts.
    """
    book = BenchBook(results, names, read_pieces(_pieces(root)))
    pistons = PistonMatching(book).pistons()
    masses = MassMatching(book, pistons)
    matched = masses.masses()
    placings = [
        pistons,
        *(ShellMatching(book).shells(each) for each in JOURNALS),
        matched,
        masses.big_ends(),
        masses.weight(matched),
    ]
    found, trials, seed = chances(results, names)
    return Bench(
        placings=tuple(each for each in placings if each is not None),
        goes_back=Returns(book).goes_back(),
        chances=found,
        trials=trials,
        seed=seed,
    )


def _pieces(root: Node) -> Node | None:
    node: Node | None = root
    for key in ("parts_in_hand", "pieces"):
        node = node.get(key) if isinstance(node, Mapping) else None
    return node
