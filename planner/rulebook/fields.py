"""Reading a declared field from a job or catalog, collecting problems instead of stopping."""

from planner.datafiles.nodes import Node
from planner.errors import Problem
from planner.rulebook.literals import read_literal
from planner.rulebook.ranges import Unreadable
from planner.rulebook.syntax import Field
from planner.rulebook.values import Value
from planner.units.table import Unit


def read_field(
    node: Node, field: Field, problems: list[Problem], block_unit: Unit | None = None
) -> Value | None:
    """Read a value by the field that declares it.

    Parameters
    ----------
    node
        What stands in the file.
    field
        The declaration: form, unit, kind, range, words.
    problems
        Where what is wrong is put.
    block_unit
        Unit of the block of readings it stands in.

    Returns
    -------
    Value or None
        The value in SI; nothing when it could not be read.
    """
    try:
        return read_literal(node, field.type, field.job or field.name, block_unit)
    except Unreadable as error:
        problems.append(error.problem)
        return None
