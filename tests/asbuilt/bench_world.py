"""The Larch plan worked out once, to hold readings of our own against."""

from functools import cache

from planner.asbuilt.verify import Work, verify
from planner.datafiles.reader import read_yaml, read_yaml_text
from planner.planning.assemble import explainer
from planner.planning.job_overrides import with_overrides
from planner.planning.job_reader import read_job_node
from tests.asbuilt.shop import JOBS, rulebook

MEASURED = (
    "parts_in_hand.pistons.gauge_point={unit: mm, "
    "readings: {1: 86.400, 2: 86.400, 3: 86.400, 4: 86.400}}"
)
PAPERS = (
    "parts_in_hand.pistons.alloy=forged_2618",
    'parts_in_hand.pistons.drawing="yes"',
    "parts_in_hand.pistons.measured_over=bare",
)


@cache
def asked():
    """Return the plan of Larch with pistons of 86.400 mm in hand."""
    root = with_overrides(read_yaml(JOBS / "larch.yaml"), (MEASURED, *PAPERS))
    return explainer(read_job_node(root, rulebook()), rulebook())


def judged(text, done=None, edges=None):
    """Judge an as_built block written as YAML."""
    steps = asked().steps
    edges = steps.edges if edges is None else edges
    order = tuple(name for name in steps.order if name in edges)
    node = read_yaml_text(text, "job.yaml") if text else None
    return verify(asked().results, node, Work(edges, order, done or {}))


def one(found, fit, where=""):
    """Return the verdict of one item."""
    docs = {each.id: each for each in found.fits}
    return next(each for each in docs[fit].items if each.where == where)
