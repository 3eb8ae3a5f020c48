"""The demo jobs worked out by the shipped rules, whole and as they stood at the counter."""

from functools import cache
from pathlib import Path

from planner.datafiles.nodes import Mapping
from planner.datafiles.reader import read_yaml
from planner.planning.assemble import explainer
from planner.planning.job_overrides import with_overrides
from planner.planning.job_reader import read_job_node
from planner.planning.shop_data import read_shop
from planner.rulebook import load_rulebook

ROOT = Path(__file__).resolve().parents[2]
JOBS = ("larch", "sorrel")
AT_THE_COUNTER = ("format", "job", "engine", "goals")


@cache
def shipped():
    return load_rulebook([ROOT / "rules"], [ROOT / "catalogs"])


@cache
def shop():
    return read_shop(shipped())


def worked_out(root):
    return explainer(read_job_node(root, shipped()), shipped())


@cache
def asked(name, *changes):
    root = with_overrides(read_yaml(ROOT / "shared" / "jobs" / f"{name}.yaml"), changes)
    return worked_out(root)


def plan(name, *changes):
    return asked(name, *changes).plan


@cache
def enquiry(name, *changes):
    """Work out a job of which only the goals are known."""
    root = read_yaml(ROOT / "shared" / "jobs" / f"{name}.yaml")
    kept = tuple((key, node) for key, node in root.entries if key.text in AT_THE_COUNTER)
    job = Mapping(kept, root.place, root.span)
    return worked_out(with_overrides(job, ("job.stage=enquiry", *changes))).plan
