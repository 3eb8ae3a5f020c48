"""What decisions give: the types of all results, read before any body so that order is free."""

from dataclasses import replace

from planner.datafiles.nodes import Mapping
from planner.errors import Problem, nearest
from planner.records import record
from planner.rulebook.declarations import TYPE_KEYS, read_type
from planner.rulebook.files import Entry
from planner.rulebook.keys import check_keys, text_of, texts_of
from planner.rulebook.ranges import Unreadable, bad
from planner.rulebook.scope import Scope
from planner.rulebook.syntax import CONFIDENCE, Give
from planner.rulebook.value_type import ValueType

BODIES = ("value", "table", "compute", "choose", "weigh", "evidence")
DECISION_KEYS = (
    "means",
    "gives",
    "per",
    *BODIES,
    "source",
    "given",
    "not_applicable",
    "firm_from",
    "note",
)


@record
class Outline:
    """A decision whose results are known and whose body is not yet read."""

    name: str
    entry: Entry
    node: Mapping
    body: str
    per: tuple[str, ...]
    gives: dict[str, Give]


def read_outlines(
    entries: dict[str, Entry],
    scope: Scope,
    rows: dict[str, tuple[str, ...]],
    problems: list[Problem],
) -> dict[str, Outline]:
    """Read what every decision gives and declare it in the scope.

    Parameters
    ----------
    entries
        The decisions' blocks.
    scope
        Where results are declared; a decision that cannot be read is marked broken.
    rows
        Row ids of each stock known when rules load.
    problems
        Where to put what is found.

    Returns
    -------
    dict of str to Outline
        The outlines of those that could be read.
    """
    outlines: dict[str, Outline] = {}
    for name, entry in entries.items():
        found: list[Problem] = []
        try:
            outline = _outline(name, entry, scope, rows, found)
            _declare(outline, scope, found)
            outlines[name] = outline
        except Unreadable as error:
            found.append(error.problem)
            scope.broken.add(name)
        problems += found
    return outlines


def _outline(
    name: str,
    entry: Entry,
    scope: Scope,
    rows: dict[str, tuple[str, ...]],
    problems: list[Problem],
) -> Outline:
    node = entry.node
    if not isinstance(node, Mapping):
        raise bad(
            f"decision {name} is not a block of keys",
            "write means:, gives: and one of " + ", ".join(BODIES),
            node.place,
        )
    problems += check_keys(node, DECISION_KEYS, f"decision {name}")
    bodies = [key for key in BODIES if node.get(key) is not None]
    if len(bodies) != 1:
        found = " and ".join(bodies) or "none"
        raise bad(
            f"decision {name} has {found} of {', '.join(BODIES)}", "give it exactly one", entry.key
        )
    if not text_of(node.get("means"), f"{name}: means"):
        problems.append(
            Problem(
                f"decision {name} does not say what it means",
                "add means: in a few words",
                entry.key,
            )
        )
    per = texts_of(node.get("per"), f"{name}: per")
    for each in per:
        if not scope.known_set(each):
            options = [*scope.sets, *scope.stocks]
            offer = nearest(each, options)
            hint = f"did you mean {offer}? " if offer else ""
            raise bad(
                f"decision {name} stands per {each}, which is no set",
                f"{hint}known: {', '.join(sorted(options))}",
                node.key_place("per"),
            )
    if len(per) > 2:
        raise bad(
            f"decision {name} stands per {', '.join(per)}",
            "at most two sets at once",
            node.key_place("per"),
        )
    gives = _gives(name, node, bodies[0], per, scope, rows)
    return Outline(name, entry, node, bodies[0], per, gives)


def _gives(
    name: str,
    node: Mapping,
    body: str,
    per: tuple[str, ...],
    scope: Scope,
    rows: dict[str, tuple[str, ...]],
) -> dict[str, Give]:
    block = node.get("gives")
    if body == "choose":
        stock = _stock_of(name, node, scope)
        declared = ValueType("choice", per=per, words=rows.get(stock, ()), catalog=stock)
        return {name: Give(name, declared, node.place)}
    if body == "evidence":
        return {name: Give(name, ValueType("choice", per=per, words=CONFIDENCE), node.place)}
    if not isinstance(block, Mapping):
        raise bad(
            f"decision {name} does not say what it gives",
            "add gives: {unit: ..., range: ...}",
            node.place,
        )
    several = all(isinstance(inner, Mapping) for _, inner in block.entries) and block.entries
    if not several:
        odd = check_keys(block, TYPE_KEYS, f"{name}: gives")
        if odd:
            raise Unreadable(odd[0])
        return {name: Give(name, read_type(block, name).over(per), block.place)}
    return _several(name, block, per)


def _several(name: str, block: Mapping, per: tuple[str, ...]) -> dict[str, Give]:
    gives = {}
    for key, inner in block.entries:
        if isinstance(inner, Mapping):
            odd = check_keys(inner, TYPE_KEYS, f"{name}: gives {key.text}")
            if odd:
                raise Unreadable(odd[0])
            declared = replace(read_type(inner, key.text), per=per)
            gives[key.text] = Give(key.text, declared, key.place)
    return gives


def _stock_of(name: str, node: Mapping, scope: Scope) -> str:
    choose = node.get("choose")
    if not isinstance(choose, Mapping):
        raise bad(
            f"{name}: choose is not a block of keys",
            "write from:, needs:, prefer: and none:",
            node.key_place("choose"),
        )
    stock = text_of(choose.get("from"), f"{name}: from")
    if stock not in scope.stocks:
        offer = nearest(stock, scope.stocks)
        hint = f"did you mean {offer}? " if offer else ""
        raise bad(
            f"{name} chooses from {stock!r}, which is no stock",
            f"{hint}known: {', '.join(sorted(scope.stocks))}",
            choose.key_place("from"),
        )
    return stock


def _declare(outline: Outline, scope: Scope, problems: list[Problem]) -> None:
    for result, give in outline.gives.items():
        taken = scope.results.get(result)
        if (
            taken is not None
            or result in scope.inputs
            or result in scope.records
            or result in scope.stocks
        ):
            where = f"decision {taken[0]}" if taken else "the inputs"
            problems.append(
                Problem(
                    f"{result} is already a name, in {where}",
                    "give the result a name of its own",
                    give.place,
                )
            )
            continue
        scope.results[result] = (outline.name, give.type)
    if outline.body == "choose":
        stock = next(iter(outline.gives.values())).type.catalog or ""
        scope.chosen[outline.name] = (stock, outline.per)
