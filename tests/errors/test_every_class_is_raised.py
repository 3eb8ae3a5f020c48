"""Every error a user may see is shown by some test."""

import inspect
import re
from pathlib import Path

import planner
from planner import errors

TESTS = Path(planner.__file__).parent.parent / "tests"


def test_every_error_class_is_raised_by_some_test():
    text = "\n".join(each.read_text(encoding="utf-8") for each in TESTS.rglob("test_*.py"))
    raised = set(re.findall(r"\w+", " ".join(re.findall(r"raises\(\(?([\w, .]+)", text))))
    classes = {
        name
        for name, each in inspect.getmembers(errors, inspect.isclass)
        if issubclass(each, errors.BorewrightError) and each is not errors.BorewrightError
    }
    assert classes - raised == set()
