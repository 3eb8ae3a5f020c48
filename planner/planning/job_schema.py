"""The JSON schema of a job file, for editors that complete and check while one types."""

from typing import Any

from planner.planning.job_keys import BLOCK_KEYS, Branch, job_tree
from planner.rulebook.ranges import range_text
from planner.rulebook.syntax import Field, Rulebook

Schema = dict[str, Any]
_SCALAR = ["string", "number", "null"]


def job_schema(rulebook: Rulebook) -> Schema:
    """Return the schema of a job for a rulebook.

    Parameters
    ----------
    rulebook
        Its inputs are the keys; what each asks becomes its description.

    Returns
    -------
    dict
        A JSON schema (2020-12). It is looser than `check`, which knows units and sets.
    """
    schema = _branch(job_tree(rulebook), rulebook)
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "borewright job, format 1"
    return schema


def _branch(branch: Branch, rulebook: Rulebook) -> Schema:
    if branch.meaning == "special":
        return _special(branch.path, rulebook)
    own = [_input(each) for each in branch.inputs]
    if not branch.children:
        return own[0] if own else {"type": _SCALAR}
    properties = {name: _branch(each, rulebook) for name, each in branch.children.items()}
    block: Schema = {"type": ["object", "null"], "properties": properties}
    if not own:
        allowed: Schema = {name: {} for name in BLOCK_KEYS} if "." in branch.path else {"unit": {}}
        block["properties"] = {**allowed, **properties} if branch.path else properties
        block["additionalProperties"] = False
        return block
    return {"description": own[0]["description"], "anyOf": [block, own[0]]}


def _special(path: str, rulebook: Rulebook) -> Schema:
    if path == "engine":
        ids = list(rulebook.stock_rows.get("engines", {}))
        return {"anyOf": [{"enum": ids}, {"type": "object"}], "description": "Engine, or inline"}
    if path == "teardown.findings":
        known = [name for name, each in rulebook.inputs.items() if each.finding]
        item = {"type": "object", "properties": {"id": {"enum": known}}, "required": ["id"]}
        return {
            "type": ["array", "null"],
            "items": item,
            "description": "What was seen, and where",
        }
    known = list(rulebook.operations if path == "progress" else rulebook.results)
    return {"type": ["object", "null"], "propertyNames": {"enum": known}}


def _input(each: Field) -> Schema:
    told = [each.ask or each.name]
    if each.type.words:
        told.append(f"one of {', '.join(each.type.words)}")
    elif each.type.numeric:
        told.append(range_text(each.type))
    if each.how:
        told.append(each.how)
    described: Schema = {"description": "; ".join(told)}
    if each.type.per or each.type.form == "grid":
        return {**described, "type": ["object", "array", *_SCALAR]}
    if each.type.words:
        return {**described, "enum": [*each.type.words, "unknown", None]}
    return {**described, "type": ["object", *_SCALAR]}
