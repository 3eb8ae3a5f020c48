"""Records as JSON text, the same bytes for the same record."""

import json
from collections.abc import Mapping

from planner.models.document import to_plain


def plain_json(held: Mapping[str, object]) -> str:
    """Write named records as JSON, in ASCII so that any console and pipe carries it."""
    plain = {name: to_plain(record) for name, record in held.items()}
    return json.dumps(plain, indent=2, allow_nan=False) + "\n"
