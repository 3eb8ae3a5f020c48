"""Read the numpydoc docstring of a formula into what the tests ask of it."""

import inspect
import re

_HEAD = re.compile(r"^(\w[\w ]*)\n-{3,}$", re.MULTILINE)
_UNIT = re.compile(r"\[([^\[\]]+)\]")


def sections(function):
    """Give the docstring's sections by name; the summary goes by the empty name."""
    doc = inspect.getdoc(function) or ""
    parts = _HEAD.split(doc)
    return {"": parts[0].strip()} | {
        name: body.strip("\n") for name, body in zip(parts[1::2], parts[2::2], strict=True)
    }


def parameter_units(function):
    """Give the text in the first bracket behind each described argument, or None."""
    units = {}
    body = sections(function).get("Parameters", "")
    for heads, description in re.findall(r"^(\S.*)\n((?:[ \t]+.*\n?|\n)+)", body, re.MULTILINE):
        found = _UNIT.search(description)
        for name in heads.partition(":")[0].split(","):
            units[name.strip()] = found[1] if found else None
    return units


def result_units(function, results):
    """Give the unit of each result: the bracket that follows its name, or the only one."""
    body = sections(function).get("Returns", "")
    if len(results) == 1 and next(iter(results)) == function.__name__:
        found = _UNIT.search(body)
        return {function.__name__: found[1] if found else None}
    units = {}
    for name in results:
        at = re.search(rf"\b{name}\b", body)
        found = _UNIT.search(body, at.end()) if at else None
        units[name] = found[1] if found else None
    return units
