"""Every formula says what it takes, how far it holds and who says so, and means it."""

import inspect
import re

import pytest

from planner.physics import load_all
from planner.physics.registry import REGISTRY, Q, Signature
from planner.units import LENGTH, find_unit
from tests.physics.formula_docs import parameter_units, result_units, sections
from tests.physics.other_units import disagreements, recorded_calls, results

load_all()
# Only the product's own: other tests may register formulas of their own while they run.
NAMES = sorted(
    name for name, each in REGISTRY.items() if each.function.__module__.startswith("planner.")
)
NEEDED = ("Parameters", "Returns", "Notes", "References", "Examples")
SAID = re.compile(r"Derived above|Common practice, no source")
CITED = re.compile(r"\d{2,}|chapter|table|clause|page|equation|not opened", re.IGNORECASE)
LOOSE = re.compile(r"\b(todo|tbd|unknown|internet|web site|various)\b", re.IGNORECASE)


def dimension_of(bracket):
    return find_unit("" if bracket == "-" else bracket).dimension


@pytest.fixture(params=NAMES)
def signature(request):
    return REGISTRY[request.param]


def test_each_formula_has_every_section(signature):
    heads = sections(signature.function)
    missing = [name for name in NEEDED if not heads.get(name)]
    assert heads[""], "the summary line is missing"
    assert not missing, f"{signature.name} lacks {missing}"


def test_each_formula_that_can_refuse_says_when(signature):
    source = inspect.getsource(signature.function)
    if "outside(" in source or "OutsideValidity" in source:
        assert "OutsideValidity" in sections(signature.function).get("Raises", "")


def test_each_argument_is_described_in_a_unit_of_its_dimension(signature):
    units = parameter_units(signature.function)
    assert sorted(units) == sorted(signature.arguments)
    for name, declared in signature.arguments.items():
        assert units[name], f"{signature.name}: {name} has no unit in brackets"
        assert dimension_of(units[name]) == declared.dimension, f"{name} [{units[name]}]"


def test_each_result_is_described_in_a_unit_of_its_dimension(signature):
    units = result_units(signature.function, signature.results)
    for name, declared in signature.results.items():
        assert units[name], f"{signature.name}: result {name} has no unit in brackets"
        assert dimension_of(units[name]) == declared.dimension, f"{name} [{units[name]}]"


def test_each_reference_is_a_citation_or_says_that_there_is_none(signature):
    text = sections(signature.function)["References"]
    assert SAID.match(text) or CITED.search(text), f"{signature.name}: {text}"
    assert not LOOSE.search(text), f"{signature.name}: {text}"


def test_each_formula_gives_just_the_results_it_declares(signature):
    calls = recorded_calls(signature)
    assert calls, f"no example calls {signature.name}"
    for values in calls:
        assert results(signature, values).keys() == signature.results.keys()


def test_each_formula_holds_in_any_units(signature):
    if signature.empirical:
        assert CITED.search(signature.citation), "an empirical formula needs a citation"
        return
    for values in recorded_calls(signature):
        assert not disagreements(signature, values)


def test_a_hidden_millimetre_is_found():
    def sneaky(*, bore):
        return bore + 0.001

    wrong = Signature(
        "sneaky", sneaky, Q(LENGTH), {"bore": Q(LENGTH)}, {}, {}, "derived", "any", empirical=False
    )
    assert disagreements(wrong, {"bore": 0.086})


def test_a_wrong_result_dimension_is_found():
    def sneaky(*, bore):
        return bore * bore

    wrong = Signature(
        "sneaky", sneaky, Q(LENGTH), {"bore": Q(LENGTH)}, {}, {}, "derived", "any", empirical=False
    )
    assert disagreements(wrong, {"bore": 0.086})
