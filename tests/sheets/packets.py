"""Packets that the tests of the sheets look at: both demo jobs, and a job of hostile texts."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from planner.datafiles.locate import shipped_folder
from planner.models.plan import JobHeader
from planner.planning.assemble import explainer
from planner.planning.job_reader import read_job
from planner.rulebook.load import load_rulebook
from planner.rulebook.syntax import Rulebook
from planner.sheets.packet import packet_of
from planner.sheets.view import Block, Section, Sheet, Task
from planner.sheets.view_material import Material, gather

JOBS = Path(__file__).parents[2] / "shared" / "jobs"
DEMO = ("larch", "sorrel")
HOSTILE = (
    "</style><script>alert(1)</script><img src=x onerror=alert(2)> #pagebreak() $x$ \\*_"
    " `r` @page{} \"'{{7*7}}{% raw %} \u202egnp.exe \x07 車 Ünïcode & Söhne"
)
LONG = "Averylongnamewithoutaspace" * 20


@cache
def rulebook() -> Rulebook:
    """Load the rules once."""
    return load_rulebook([shipped_folder("rules")], [shipped_folder("catalogs")])


@cache
def material(job: str, units: str = "metric") -> Material:
    """Gather what the sheets of a demo job show."""
    path = JOBS / f"{job}.yaml"
    reading = read_job(path, rulebook())
    return gather(explainer(reading, rulebook(), units), reading, path)


RELEASED = """
parts_in_hand:
  mains:
    unit: mm
    housing: {1: 58.009, 2: 58.008, 3: 58.010, 4: 58.009, 5: 58.008}
    journal: {1: 53.740, 2: 53.745, 3: 53.738, 4: 53.741, 5: 53.743}
"""


def released(folder: Path) -> Material:
    """Gather the Larch job with its main housings and journals finished and measured."""
    text = (JOBS / "larch.yaml").read_text(encoding="utf-8")
    path = folder / "released.yaml"
    path.write_text(text.replace("stage: inspected", "stage: released") + RELEASED)
    reading = read_job(path, rulebook())
    return gather(explainer(reading, rulebook()), reading, path, with_map=False)


@cache
def packet(job: str, units: str = "metric") -> tuple[Sheet, ...]:
    """Make the packet of a demo job."""
    return packet_of(material(job, units))


def sheet(name: str, job: str = "larch") -> Sheet:
    """Return one sheet of a demo job."""
    return next(each for each in packet(job) if each.name == name)


def enquiry(folder: Path) -> Material:
    """Gather the Larch job as it stood before the engine was opened."""
    text, _, _ = (JOBS / "larch.yaml").read_text(encoding="utf-8").partition("\nteardown:")
    path = folder / "enquiry.yaml"
    path.write_text(text.replace("stage: inspected", "stage: enquiry"), encoding="utf-8")
    reading = read_job(path, rulebook())
    return gather(explainer(reading, rulebook()), reading, path)


def named(text: str) -> Material:
    """Return the Larch job with a text in every place a person types into."""
    base = material("larch")
    plan = base.plan
    header = JobHeader(
        name=text,
        reference=text,
        engine=text,
        stage=plan.job.stage,
        stage_because=text,
        complaint=text,
        budget=text,
        deadline=text,
    )
    findings = tuple(
        replace(each, where=text, evidence=text, title=text) for each in plan.findings[:3]
    )
    steps = tuple(
        replace(each, done=f"2027-01-01 {text}", where=(text,)) for each in plan.operations
    )
    first = plan.torque_sheet[0]
    torques = (replace(first, value=text, origin=text), *plan.torque_sheet[1:])
    return replace(
        base,
        plan=replace(plan, job=header, findings=findings, operations=steps, torque_sheet=torques),
    )


def wide_engine() -> Material:
    """Return the Larch job as if its engine had twelve cylinders and long names."""
    base = material("larch")
    twelve = tuple(str(number) for number in range(1, 13))
    valves = tuple(str(number) for number in range(1, 25))
    bores = tuple(replace(base.bores[0], cylinder=each) for each in twelve)
    sets = {
        "cylinder": twelve,
        "rod": twelve,
        "main": twelve[:7],
        "intake_valve": valves,
        "exhaust_valve": valves,
    }
    return replace(base, sets=sets, bores=bores)


def blocks(of: Sheet | Section) -> list[Block]:
    """Return every block of a sheet or a section."""
    sections = of.sections if isinstance(of, Sheet) else (of,)
    return [block for section in sections for block in section.blocks]


def tasks(of: Sheet) -> list[Task]:
    """Return the steps of a sheet."""
    return [block for block in blocks(of) if isinstance(block, Task)]
