"""The plan document as JSON text, the same bytes for the same plan."""

import json

from planner.models.document import to_plain
from planner.models.plan import Plan


def plan_json(plan: Plan) -> str:
    """Write the plan document as JSON, in ASCII so that any console and pipe carries it."""
    return json.dumps(to_plain(plan), indent=2, allow_nan=False) + "\n"
