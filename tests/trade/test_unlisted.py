"""An engine that no catalog lists, typed into the job: everything works from its block."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from planner.models.plan import Plan
from planner.planning.assemble import plan_job
from planner.planning.job_reader import read_job
from planner.rulebook.syntax import Rulebook
from tests.trade.conftest import ROOT

MM_AN_INCH = 25.4
_MILLIMETRES = re.compile(r"((?:[\d.]+ / )*[\d.]+) mm\b")
Typed = Callable[[str, Callable[[str], str]], Plan]


def block_of(engine: str) -> str:
    """Return the block of a catalog entry, as a builder would type it."""
    text = (ROOT / "catalogs" / "engines" / f"{engine}.yaml").read_text(encoding="utf-8")
    inside = text.partition("rows:\n")[2].partition("\n")[2]
    return "".join(line[2:] + "\n" for line in inside.splitlines() if line.startswith("    "))


def as_typed(block: str) -> str:
    """Leave a block as it is."""
    return block


def in_inches(block: str) -> str:
    """Write each size in inches, to the ten-thousandth as a shop would."""

    def turned(found: re.Match[str]) -> str:
        sizes = [f"{float(each) / MM_AN_INCH:.4f}" for each in found[1].split(" / ")]
        return f"{' / '.join(sizes)} in"

    return _MILLIMETRES.sub(turned, block)


@pytest.fixture(scope="module")
def typed(rulebook: Rulebook, tmp_path_factory: pytest.TempPathFactory) -> Typed:
    """Return a function that plans a demonstration job with its engine written out."""

    def work_out(job: str, spelled: Callable[[str], str]) -> Plan:
        text = (ROOT / "shared" / "jobs" / f"{job}.yaml").read_text(encoding="utf-8")
        (engine,) = re.findall(r"^engine: (\S+)", text, flags=re.MULTILINE)
        inline = f"engine:\n{spelled(block_of(engine))}"
        path = Path(tmp_path_factory.mktemp(job)) / "job.yaml"
        path.write_text(text.replace(f"engine: {engine}\n", inline, 1), encoding="utf-8")
        return plan_job(read_job(path, rulebook), rulebook)

    return work_out


@pytest.mark.parametrize("job", ["larch", "sorrel"])
def test_an_engine_written_out_gives_the_plan_of_the_listed_one(
    typed: Typed, rulebook: Rulebook, job: str
) -> None:
    listed = plan_job(read_job(ROOT / "shared" / "jobs" / f"{job}.yaml", rulebook), rulebook)
    written = typed(job, as_typed)
    assert {name: each.text for name, each in written.decisions.items()} == {
        name: each.text for name, each in listed.decisions.items()
    }
    assert [each.id for each in written.operations] == [each.id for each in listed.operations]


@pytest.mark.parametrize("job", ["larch", "sorrel"])
def test_sizes_rounded_to_the_ten_thousandth_of_an_inch_choose_the_same_parts(
    typed: Typed, rulebook: Rulebook, job: str
) -> None:
    metric, inch = typed(job, as_typed), typed(job, in_inches)
    parts = ("pin_grade", "ring_pack", "rod_grade", "rod_bolt_grade", "head_fasteners")
    for name in (*parts, "bore_oversize", "main_undersize", "rod_undersize"):
        assert inch.decisions[name].value == metric.decisions[name].value, name
    refused = [name for name, each in inch.decisions.items() if each.status == "refused"]
    assert refused == [name for name, each in metric.decisions.items() if each.status == "refused"]
