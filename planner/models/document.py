"""The plan as plain data, and the schema that such data must fit."""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from planner.models.plan import SCHEMA, Plan

_RENAMED = {"evidence_for": "for", "part_class": "class", "work_class": "class"}
_KEPT_EMPTY = frozenset(
    {
        "decisions",
        "findings",
        "diagnosis",
        "conflicts",
        "questions",
        "operations",
        "parts",
        "cautions",
        "assumptions",
        "missing",
        "can_start_now",
        "after",
        "why",
        "sources",
    }
)
_EMPTY: tuple[object, ...] = (None, "", (), {})


def to_plain(record: object) -> object:
    """Turn a record into mappings, lists, words and numbers, leaving out what is empty.

    Lists that the contract names are kept when empty; false and zero are never left out.
    """
    if is_dataclass(record) and not isinstance(record, type):
        return {
            _RENAMED.get(each.name, each.name): to_plain(value)
            for each in fields(record)
            if _said(each.name, value := getattr(record, each.name))
        }
    if isinstance(record, Mapping):
        return {str(key): to_plain(value) for key, value in record.items()}
    if isinstance(record, (tuple, list)):
        return [to_plain(each) for each in record]
    return record


def _said(name: str, value: object) -> bool:
    if name in _KEPT_EMPTY or isinstance(value, (bool, int, float)):
        return True
    return not any(value == empty for empty in _EMPTY)


def plan_schema() -> dict[str, Any]:
    """Return the JSON schema of the plan document (2020-12).

    Returns
    -------
    dict
        The schema, with the key names as the document spells them.
    """
    from pydantic import TypeAdapter  # late: it costs a tenth of a second

    schema = TypeAdapter(Plan).json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = SCHEMA
    for definition in (schema, *schema.get("$defs", {}).values()):
        _rename(definition)
    return schema


def _rename(definition: dict[str, Any]) -> None:
    properties = definition.get("properties", {})
    definition["properties"] = {_RENAMED.get(key, key): value for key, value in properties.items()}
    if "required" in definition:
        definition["required"] = [_RENAMED.get(key, key) for key in definition["required"]]


def read_plan(document: Mapping[str, Any]) -> Plan:
    """Read a plan document back, checking every key and type.

    Parameters
    ----------
    document
        The document as JSON gives it.

    Returns
    -------
    Plan
        The same plan.
    """
    from pydantic import TypeAdapter

    return TypeAdapter(Plan).validate_python(_named_back(document))


def _named_back(document: Mapping[str, Any]) -> dict[str, Any]:
    plain = dict(document)
    plain["operations"] = [_swap(each, "class", "work_class") for each in plain["operations"]]
    plain["parts"] = [_swap(each, "class", "part_class") for each in plain["parts"]]
    plain["diagnosis"] = [_swap(each, "for", "evidence_for") for each in plain["diagnosis"]]
    return plain


def _swap(entry: Mapping[str, Any], shown: str, inside: str) -> dict[str, Any]:
    return {inside if key == shown else key: value for key, value in entry.items()}
