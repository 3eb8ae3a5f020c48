"""Coverage-guided fuzzing of everything that reads what people and other programs write.

A bench job, not part of the suite. Run it where atheris is installed, for as long as there is
time::

    python tests/bench/fuzz_readers.py yaml -max_total_time=300

with ``yaml``, ``table``, ``trace``, ``formula``, ``cell``, ``quantity`` or ``compiled``. A reader
may refuse with an error meant for people; any other exception stops the run and leaves its
input behind, and so does an input that takes longer than five seconds. What is found and
mended goes into the tests of the reader as a fixture.
"""

import contextlib
import hashlib
import sys
import tempfile
from pathlib import Path

try:
    import atheris
except ImportError:  # the suite's collector opens every file; only the job needs it
    atheris = None

with atheris.instrument_imports(["planner"]) if atheris else contextlib.nullcontext():
    from planner.datafiles.nodes import Mapping, Scalar, Sequence
    from planner.datafiles.reader import read_yaml_text
    from planner.datafiles.text import decoded
    from planner.datafiles.trace import read_trace
    from planner.errors import BorewrightError, Place, Problem
    from planner.rulebook.cells import parse_cell
    from planner.rulebook.columns import ChoiceColumn, NumberColumn, parse_range
    from planner.rulebook.compiled import read_compiled
    from planner.rulebook.formulas import parse_formula
    from planner.rulebook.hits import Hit
    from planner.rulebook.ranges import Unreadable
    from planner.rulebook.scope import Scope
    from planner.rulebook.tables import Row, Table
    from planner.teardown.table import read_table
    from planner.units import find_unit, parse_quantity, show

PLACE = Place("fuzzed", 1, 1)
BAR = find_unit("bar gauge")
BOOST = NumberColumn(
    "boost",
    parse_range("[0 bar .. 4 bar]", PLACE, unit=BAR, kind="gauge"),
    BAR,
    "gauge",
    "[0 .. 4]",
)
USE = ChoiceColumn("use", ("track", "street"))


def within(node, length):
    """Check that every value stands inside the text."""
    start, end = node.span
    assert 0 <= start <= end <= length, node
    children = node.items if isinstance(node, Sequence) else ()
    if isinstance(node, Mapping):
        children = [each for pair in node.entries for each in pair]
    for each in children:
        within(each, length)


def yaml(data):
    text = decoded(data, "fuzzed")
    node = read_yaml_text(text, "fuzzed")
    within(node, len(text))
    assert isinstance(node, (Scalar, Sequence, Mapping))


def in_file(data, suffix, reader):
    with tempfile.NamedTemporaryFile(suffix=suffix) as stream:
        stream.write(data)
        stream.flush()
        return reader(Path(stream.name))


def table(data):
    read_table(data, "fuzzed.csv")


def trace(data):
    in_file(data, ".csv", read_trace)


def formula(data):
    with contextlib.suppress(Unreadable):
        parse_formula(data.decode("utf-8", "replace"), PLACE, Scope())


def cell(data):
    text = data.decode("utf-8", "replace")
    for column in (BOOST, USE):
        found = parse_cell(text, column, PLACE)
        if not isinstance(found, Problem):
            Table((column,), [Row((found,), text, PLACE)], Hit.FIRST)


def quantity(data):
    found = parse_quantity(data.decode("utf-8", "replace"))
    again = parse_quantity(f"{found.value!r} {found.unit.name}")
    assert again.si == found.si
    assert show(found.si, found.unit, kind=found.kind)


def compiled(data):
    checked = hashlib.sha256(data).hexdigest().encode() + b"\n" + data
    assert in_file(checked, ".json", read_compiled) is None


TARGETS = {each.__name__: each for each in (yaml, table, trace, formula, cell, quantity, compiled)}


def main():
    if atheris is None:
        sys.exit("atheris is not installed: pip install atheris")
    target = TARGETS[sys.argv.pop(1)]

    def one(data):
        with contextlib.suppress(BorewrightError):
            target(data)

    atheris.Setup([*sys.argv, "-timeout=5", "-max_len=4096"], one)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
