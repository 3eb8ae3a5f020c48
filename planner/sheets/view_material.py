"""What the sheets are made from: the plan, and what else a sheet shows of the job."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

from planner.datafiles.nodes import Mapping as Block
from planner.datafiles.nodes import Node, Scalar, Sequence
from planner.datafiles.reader import read_yaml
from planner.errors import BorewrightError
from planner.models.document import to_plain
from planner.models.job import FindingEntry
from planner.models.knock_map import KnockMap
from planner.models.plan import Plan
from planner.planning.explaining import Explainer
from planner.planning.job_reader import JobReading
from planner.planning.knock_map import knock_map
from planner.rulebook.results import Results
from planner.rulebook.syntax import Field, Rulebook
from planner.sheets.letters import clean
from planner.sheets.pictures.bore_map import BoreReadings
from planner.sheets.pictures.shells import CLEARANCE_WITH
from planner.sheets.view import Stamped

Clearances = Mapping[str, Mapping[tuple[str, ...], float]]
_DEPTHS = {1: ("one depth",), 2: ("top", "bottom"), 3: ("top", "middle", "bottom")}
_AXES = ("thrust", "crank", "diagonal", "other diagonal")
# Below this the whole of a check code is no use to a person, and above it nobody compares it.
_CODE = 16


@dataclass(frozen=True, kw_only=True)
class Material:
    """Everything the sheets show.

    Attributes
    ----------
    document
        The plan as JSON, attached to every PDF.
    sets
        Items of each set: cylinders, mains, rods, valves.
    readings
        What is measured at the teardown, as the rulebook asks for it.
    folder
        Where the job lies; photographs are looked for beside it.
    knock, no_knock
        The knock map, or why there is none; neither when no sheet shows it.
    shells
        For each shell decision, what each journal and pair of shells would leave. [m]
    """

    plan: Plan
    document: str
    sets: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    readings: tuple[Field, ...] = ()
    bores: tuple[BoreReadings, ...] = ()
    findings: tuple[FindingEntry, ...] = ()
    folder: Path | None = None
    knock: KnockMap | None = None
    no_knock: str = ""
    shells: Clearances = field(default_factory=dict)

    @property
    def system(self) -> str:
        """The units that the plan is printed in."""
        return self.plan.job.units

    @property
    def stamp(self) -> Stamped:
        """What stands on every page."""
        job, stamp = self.plan.job, self.plan.stamp
        return Stamped(
            job=clean(job.name),
            reference=clean(job.reference),
            revision=sha256(self.document.encode()).hexdigest()[:8],
            edition=stamp.rules_edition,
            check_code=stamp.rules_sha256[:_CODE],
            version=stamp.version,
        )


def gather(
    worked: Explainer, reading: JobReading, path: Path, *, with_map: bool = True
) -> Material:
    """Gather what the sheets show.

    Parameters
    ----------
    worked
        The job worked out: its plan, and what the rulebook said of it.
    reading
        The job as read.
    path
        The job file.
    with_map
        Whether to work the knock map out, which takes about as long as a sheet.

    Returns
    -------
    Material
        For `packet_of`.
    """
    plan, rulebook = worked.plan, worked.results.rulebook
    knock, no_knock = _knock(reading, rulebook) if with_map else (None, "")
    return Material(
        plan=plan,
        document=json.dumps(to_plain(plan), allow_nan=False),
        sets=reading.facts.sets,
        readings=tuple(each for each in rulebook.inputs.values() if each.stage == "inspected"),
        bores=_bores(plan, reading, path),
        findings=reading.job.findings,
        folder=path.parent,
        knock=knock,
        no_knock=no_knock,
        shells={name: _clearances(worked.results, name) for name in CLEARANCE_WITH.values()},
    )


def _clearances(results: Results, name: str) -> Mapping[tuple[str, ...], float]:
    """Return what each journal and pair of shells would leave, where it is worked out."""
    outcome = results.outcomes.get(name)
    answers = outcome.answers.values() if outcome else ()
    return {
        key: entry.value
        for answer in answers
        for key, entry in answer.entries.items()
        if isinstance(entry.value, int | float)
    }


def _knock(reading: JobReading, rulebook: Rulebook) -> tuple[KnockMap | None, str]:
    try:
        return knock_map(reading, rulebook), ""
    except BorewrightError as error:
        return None, error.problem


def _bores(plan: Plan, reading: JobReading, path: Path) -> tuple[BoreReadings, ...]:
    fact = reading.facts.inputs.get("bores")
    unworn = plan.decisions.get("bore_below_rings")
    if fact is None or unworn is None:
        return ()
    block = _block(path)
    scores = reading.facts.inputs.get("score_depth")
    found = []
    for key, entry in fact.entries.items():
        grid = entry.value
        if not isinstance(grid, tuple) or not grid:
            continue
        score = scores.entries.get(key) if scores else None
        deepest = score.value if score and isinstance(score.value, int | float) else 0.0
        found.append(
            BoreReadings(
                cylinder=key[0],
                rows=grid,
                depths=_labels(block, "depths", len(grid), _DEPTHS.get(len(grid))),
                axes=_labels(block, "axes", len(grid[0]), _AXES[: len(grid[0])]),
                unworn=min(min(row) for row in grid),
                score=deepest,
            )
        )
    return tuple(found)


def _block(path: Path) -> Node | None:
    """Find the block of bore readings again, for the depths and axes that a person wrote there."""
    node: Node | None = read_yaml(path)
    for key in ("teardown", "bores"):
        node = node.get(key) if isinstance(node, Block) else None
    return node


def _labels(
    block: Node | None, key: str, count: int, otherwise: tuple[str, ...] | None
) -> tuple[str, ...]:
    """Name rows or columns as the job does, else as every shop does, else by number."""
    listed = block.get(key) if isinstance(block, Block) else None
    if isinstance(listed, Sequence) and len(listed.items) == count:
        unit = " mm" if key == "depths" else ""
        return tuple(
            clean(f"{each.text}{unit}") for each in listed.items if isinstance(each, Scalar)
        )
    if otherwise and len(otherwise) == count:
        return otherwise
    return tuple(str(place) for place in range(1, count + 1))
