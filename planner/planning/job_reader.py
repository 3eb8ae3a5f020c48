"""Read a job file by a rulebook: facts for the rules, the plain record, and every problem."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from planner.datafiles.nodes import Mapping as Block
from planner.datafiles.nodes import Node, Scalar
from planner.datafiles.reader import read_yaml
from planner.errors import Problem, ProblemsFound
from planner.models.job import Job
from planner.planning.job_blocks import Reader, Reading
from planner.planning.job_doubts import Doubts, contradictions
from planner.planning.job_engine import Chosen, choose_records
from planner.planning.job_findings import Findings
from planner.planning.job_given import GivenValues
from planner.planning.job_items import items_of_sets
from planner.planning.job_keys import job_tree
from planner.planning.job_nodes import is_unknown
from planner.planning.job_overrides import with_overrides
from planner.planning.job_record import job_record
from planner.planning.job_walk import Walk
from planner.planning.stages import stage_of
from planner.rulebook.results import Fact, Facts, Given, Question
from planner.rulebook.syntax import Rulebook
from planner.rulebook.values import Entry, Key
from planner.teardown.doubts import Block as ReadingBlock
from planner.teardown.doubts import TeardownDoubts
from planner.units import parse_quantity


@dataclass(frozen=True, slots=True)
class JobReading:
    """A job that could be read.

    Attributes
    ----------
    job
        Its plain record.
    facts
        What the rules work from.
    stage_because
        Why it stands at its stage.
    doubts
        Questions about readings, with their places.
    notes
        Things the plan must say, such as a boost read as gauge.
    """

    job: Job
    facts: Facts
    stage_because: str
    doubts: tuple[Problem, ...] = ()
    notes: tuple[Question, ...] = ()


def read_job(path: Path, rulebook: Rulebook, settings: Iterable[str] = ()) -> JobReading:
    """Read a job file.

    Parameters
    ----------
    path
        The file.
    rulebook
        The rules it is read for.
    settings
        What-if settings `KEY=VALUE`.

    Returns
    -------
    JobReading
        Facts and record.

    Raises
    ------
    ProblemsFound
        With every problem of the file, questions among them, when one of them is an error.
    """
    try:
        root = read_yaml(path)
    except ProblemsFound as found:
        if not isinstance(found.readable, Block):
            raise
        rest = _further(found.readable, rulebook, settings, found.problems)
        raise ProblemsFound([*found.problems, *rest]) from found
    return read_job_node(with_overrides(root, settings), rulebook)


def _further(
    root: Node, rulebook: Rulebook, settings: Iterable[str], told: tuple[Problem, ...]
) -> list[Problem]:
    """Say what else is wrong in a file whose YAML has slips, each slip told once."""
    lines = {(each.place.file, each.place.line) for each in told if each.place}
    try:
        read_job_node(with_overrides(root, settings), rulebook)
    except ProblemsFound as found:
        return [
            each
            for each in found.problems
            if each.place is None or (each.place.file, each.place.line) not in lines
        ]
    return []


def read_job_node(root: Node, rulebook: Rulebook) -> JobReading:
    """Read a job that is already YAML nodes; see `read_job`."""
    tree = job_tree(rulebook)
    walk = Walk(tree)
    walk.through(root, tree)
    chosen = choose_records(rulebook, _record_nodes(root, walk, rulebook), walk.problems)
    if "engine" in rulebook.records and not chosen.name and not walk.problems:
        fix = "add engine: and the id of a catalog entry, or its block inline"
        walk.problems.append(Problem("the job names no engine", fix, root.place))
    reader = Reader(rulebook, items_of_sets(rulebook, chosen.records), walk.problems)
    facts = _facts(reader, walk.readings)
    findings = Findings(rulebook, reader.sets, walk.problems)
    facts |= findings.read(walk.special.get("teardown.findings"))
    notes = _boost_note(walk.readings, facts)
    given, odd = _given(reader, chosen, walk.special.get("given"), notes)
    walk.problems += contradictions(rulebook, chosen, facts)
    job = job_record(walk, chosen.name, tuple(findings.entries), rulebook)
    doubts = (*_doubts(rulebook, chosen, facts, walk), *odd)
    if walk.problems:
        raise ProblemsFound([*walk.problems, *doubts])
    stage, because = stage_of(job.stage_held, _filled(root, rulebook, facts))
    return JobReading(
        job=job,
        facts=Facts(
            inputs=facts,
            records=chosen.records,
            sets=reader.sets,
            owned=chosen.owned,
            stage=stage,
            given=given,
        ),
        stage_because=because,
        doubts=doubts,
        notes=tuple(notes),
    )


def _doubts(
    rulebook: Rulebook, chosen: Chosen, facts: Mapping[str, Fact], walk: Walk
) -> tuple[Problem, ...]:
    """Ask about readings that can hardly be right; what cannot be read at all is a problem."""
    blocks = (ReadingBlock(each.input, each.node, each.unit) for each in walk.readings)
    engine = chosen.records.get("engine", {})
    found = [
        *Doubts(rulebook, chosen, facts).questions(),
        *TeardownDoubts(rulebook, engine, facts).questions(blocks),
    ]
    walk.problems += [each for each in found if each.kind == "error"]
    return tuple(each for each in found if each.kind != "error")


def _record_nodes(root: Node, walk: Walk, rulebook: Rulebook) -> dict[str, Node]:
    """Find the node that names each record: `engine:` or the record's own path."""
    nodes: dict[str, Node] = dict(walk.special)
    for record in rulebook.records.values():
        path = record.job or record.name
        node = _at(root, path)
        if node is not None and not is_unknown(node):
            nodes[record.name] = node
    return nodes


def _at(root: Node, path: str) -> Node | None:
    node: Node | None = root
    for key in path.split("."):
        node = node.get(key) if isinstance(node, Block) else None
    return node


def _facts(reader: Reader, readings: Iterable[Reading]) -> dict[str, Fact]:
    facts = {}
    for reading in readings:
        fact = reader.read(reading)
        if fact is not None:
            facts[fact.name] = _with_unlisted(fact, reading, reader)
    return facts


def _with_unlisted(fact: Fact, reading: Reading, reader: Reader) -> Fact:
    """Fill the items a list leaves out, where the input says what leaving out means."""
    each = reading.input
    if each.unlisted is None or not each.type.per:
        return fact
    entries: dict[Key, Entry] = {
        (item,): fact.entries.get((item,), Entry(each.unlisted))
        for item in reader.sets.get(each.type.per[0], ())
    }
    return Fact(fact.name, entries, fact.places)


def _boost_note(readings: Iterable[Reading], facts: Mapping[str, Fact]) -> list[Question]:
    """Say that a boost without gauge or absolute was read as gauge."""
    for reading in readings:
        node = reading.node
        if reading.input.name != "boost" or "boost" not in facts or not isinstance(node, Scalar):
            continue
        if parse_quantity(node.text).kind is None:
            text = f"Boost {node.text} was read as gauge: above the air around."
            return [Question("boost", text)]
    return []


def _given(
    reader: Reader, chosen: Chosen, node: Node | None, notes: list[Question]
) -> tuple[dict[str, Given], list[Problem]]:
    rows = {name: tuple(rows) for name, rows in chosen.owned.items()}
    rows |= {name: tuple(rows) for name, rows in reader.rulebook.stock_rows.items()}
    values = GivenValues(reader.rulebook, reader.sets, rows, reader.problems, notes)
    return values.read(node), values.doubts


def _filled(root: Node, rulebook: Rulebook, facts: Mapping[str, Fact]) -> set[str]:
    """Name the blocks of the job that hold readings, findings or measurements."""
    paths = {rulebook.inputs[name].job for name in facts if not rulebook.inputs[name].finding}
    found = {path.partition(".")[0] for path in paths}
    listed = {"teardown": "teardown.findings", "as_built": "as_built"}
    for block, path in listed.items():
        node = _at(root, path)
        if node is not None and not is_unknown(node):
            found.add(block)
    return found
