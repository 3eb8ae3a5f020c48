import pytest

from planner.errors import BadSignature, KindClash, OutsideValidity, UnknownFormula, UnknownUnit
from planner.physics import find_formula, load_all
from planner.physics.registry import REGISTRY, Q, outside, physics
from planner.units import LENGTH, NONE, PRESSURE

load_all()  # so that what is put back after each test is the full register
WORDS = {"citation": "derived", "validity": "any"}


@pytest.fixture(autouse=True)
def registry_as_it_was():
    before = dict(REGISTRY)
    yield
    REGISTRY.clear()
    REGISTRY.update(before)


def half(*, bore: float) -> float:
    return bore / 2


def test_a_formula_is_registered_under_its_own_name_and_handed_back():
    assert physics(returns=Q(LENGTH), bore=Q(LENGTH, "diameter"), **WORDS)(half) is half
    signature = REGISTRY["half"]
    assert signature.arguments == {"bore": Q(LENGTH, "diameter")}
    assert signature.results == {"half": Q(LENGTH)}


def test_a_direction_of_a_single_result_goes_by_the_formulas_name():
    physics(returns=Q(LENGTH), rises=("bore",), bore=Q(LENGTH), **WORDS)(half)
    assert REGISTRY["half"].rises == {"half": ("bore",)}
    assert REGISTRY["half"].falls == {"half": ()}


def test_an_undeclared_argument_is_named():
    with pytest.raises(BadSignature, match="half and its declaration differ in bore"):
        physics(returns=Q(LENGTH), **WORDS)(half)


def test_a_declared_argument_the_function_lacks_is_named():
    with pytest.raises(BadSignature, match="differ in stroke"):
        physics(returns=Q(LENGTH), bore=Q(LENGTH), stroke=Q(LENGTH), **WORDS)(half)


def test_an_argument_by_position_is_refused():
    def wrong(bore: float) -> float:
        return bore

    with pytest.raises(BadSignature, match="takes 'bore' by position"):
        physics(returns=Q(LENGTH), bore=Q(LENGTH), **WORDS)(wrong)


def test_a_default_is_refused():
    def wrong(*, bore: float = 0.086) -> float:
        return bore

    with pytest.raises(BadSignature, match="has a default for 'bore'"):
        physics(returns=Q(LENGTH), bore=Q(LENGTH), **WORDS)(wrong)


@pytest.mark.parametrize(
    ("directions", "said"),
    [
        ({"rises": ("stroke",)}, "has no argument 'stroke'"),
        ({"rises": ("bore",), "falls": ("bore",)}, "both rises and falls with 'bore'"),
        ({"rises": {"third": ("bore",)}}, "has no result 'third'"),
    ],
)
def test_a_direction_must_make_sense(directions, said):
    with pytest.raises(BadSignature, match=said):
        physics(returns=Q(LENGTH), bore=Q(LENGTH), **directions, **WORDS)(half)


def test_several_results_need_directions_by_name():
    def both(*, bore: float) -> dict[str, float]:
        return {"one": bore, "two": bore}

    declared = {"returns": {"one": Q(LENGTH), "two": Q(LENGTH)}, "bore": Q(LENGTH)}
    with pytest.raises(BadSignature, match="states directions for one"):
        physics(rises=("bore",), **declared, **WORDS)(both)
    physics(rises={"one": ("bore",)}, **declared, **WORDS)(both)
    assert REGISTRY["both"].rises == {"one": ("bore",)}


def test_a_formula_without_a_citation_is_refused():
    with pytest.raises(BadSignature, match="no citation"):
        physics(returns=Q(LENGTH), bore=Q(LENGTH), citation=" ", validity="any")(half)


def test_a_kind_of_another_dimension_is_refused():
    with pytest.raises(KindClash, match="'gauge' does not fit"):
        physics(returns=Q(LENGTH), bore=Q(LENGTH, "gauge"), **WORDS)(half)


def test_an_unknown_kind_is_refused_with_the_nearest():
    with pytest.raises(UnknownUnit, match="Did you mean 'diameter'"):
        physics(returns=Q(LENGTH), bore=Q(LENGTH, "diamter"), **WORDS)(half)


def test_the_same_name_in_two_modules_is_refused():
    physics(returns=Q(LENGTH), bore=Q(LENGTH), **WORDS)(half)

    def half_again(*, bore: float) -> float:
        return bore

    half_again.__name__ = "half"
    half_again.__module__ = "elsewhere"
    with pytest.raises(BadSignature, match="registered twice"):
        physics(returns=Q(LENGTH), bore=Q(LENGTH), **WORDS)(half_again)


def test_outside_says_what_was_asked_and_how_far_the_formula_holds():
    with pytest.raises(OutsideValidity) as refusal:
        outside("bore", "150 mm", "75 to 105 mm", "Ask the piston maker.")
    said = str(refusal.value)
    assert said.startswith("bore is 150 mm, outside 75 to 105 mm.")
    assert said.endswith("Do:  Ask the piston maker.")


def test_an_unknown_formula_is_refused_with_the_nearest():
    physics(returns=Q(NONE), p=Q(PRESSURE), **WORDS)(_named("zweibein_ratio"))
    with pytest.raises(UnknownFormula, match="Did you mean 'zweibein_ratio'"):
        find_formula("zweibein_ratios")


def test_a_word_like_no_formula_is_refused_with_where_to_look():
    with pytest.raises(UnknownFormula, match="borewright rules names"):
        find_formula("%%%%")


def _named(name):
    def formula(*, p: float) -> float:
        return p

    formula.__name__ = name
    return formula
