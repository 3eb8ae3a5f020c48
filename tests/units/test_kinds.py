from itertools import product

import pytest

from planner.errors import KindClash, UnknownUnit
from planner.units import KINDS, LENGTH, PRESSURE, known_kind, product_kind, sum_kind

ON_DIAMETER = "clearance on diameter"


@pytest.mark.parametrize(
    ("op", "left", "right", "result"),
    [
        ("-", "diameter", "diameter", ON_DIAMETER),
        ("+", "diameter", ON_DIAMETER, "diameter"),
        ("-", "diameter", ON_DIAMETER, "diameter"),
        ("-", "radius", "radius", "clearance per side"),
        ("-", "reading", "reading", "rise"),
        ("+", "reading", "rise", "reading"),
        ("-", "reading", "rise", "reading"),
        ("+", "rise", "rise", "rise"),
        ("-", "absolute", "absolute", "pressure difference"),
        ("+", "absolute", "pressure difference", "absolute"),
        ("-", ON_DIAMETER, ON_DIAMETER, ON_DIAMETER),
        ("min", "gap", "gap", "gap"),
        ("max", "diameter", "diameter", "diameter"),
        ("+", None, "gap", None),
        ("-", "diameter", None, None),
        ("compare", None, "gauge", None),
        ("compare", "gauge", "gauge", None),
    ],
)
def test_sums_keep_what_they_mean(op, left, right, result):
    assert sum_kind(op, left, right) == result


@pytest.mark.parametrize("op", ["+", "-", "min", "max", "compare"])
@pytest.mark.parametrize(
    ("left", "right", "said"),
    [
        ("gauge", "absolute", r"absolute\(p, at\)"),
        (ON_DIAMETER, "clearance per side", r"on_diameter\(\)"),
        ("diameter", "radius", "both to a diameter"),
        ("torque", "energy", "one kind"),
        ("stress", "gauge", "one kind"),
    ],
)
def test_what_may_not_be_mixed_is_refused_both_ways_round(op, left, right, said):
    for one, other in ((left, right), (right, left)):
        with pytest.raises(KindClash, match=said):
            sum_kind(op, one, other)


def test_a_clearance_is_not_taken_from_by_a_diameter():
    with pytest.raises(KindClash, match="A clearance on diameter cannot be taken"):
        sum_kind("-", ON_DIAMETER, "diameter")


def test_the_refusal_reads_as_it_is_spoken():
    with pytest.raises(KindClash) as refusal:
        sum_kind("+", "gauge", "absolute")
    assert str(refusal.value).startswith(
        "A gauge pressure cannot be added to an absolute pressure."
    )


def test_a_reading_and_a_rise_are_never_compared():
    with pytest.raises(KindClash, match="temperature reading"):
        sum_kind("compare", "reading", "rise")


def test_gauge_and_absolute_never_meet_in_any_sum():
    for op, left, right in product(("+", "-", "min", "max", "compare"), KINDS, KINDS):
        if {left, right} == {"gauge", "absolute"}:
            with pytest.raises(KindClash):
                sum_kind(op, left, right)


def test_every_sum_that_is_allowed_stays_within_one_dimension():
    for op, left, right in product(("+", "-", "min", "max"), KINDS, KINDS):
        try:
            result = sum_kind(op, left, right)
        except KindClash:
            continue
        assert KINDS[left] == KINDS[right] == KINDS[result]


@pytest.mark.parametrize(
    ("op", "left", "right", "plain", "result"),
    [
        ("*", "gap", None, (False, True), "gap"),
        ("*", None, "gap", (True, False), "gap"),
        ("/", ON_DIAMETER, None, (False, True), ON_DIAMETER),
        ("/", None, "gap", (True, False), None),
        ("*", None, "diameter", (False, False), None),
        ("/", "diameter", "diameter", (False, False), None),
        ("**", "diameter", None, (False, True), None),
    ],
)
def test_only_a_plain_number_keeps_a_kind_in_a_product(op, left, right, plain, result):
    found = product_kind(op, left, right, left_plain=plain[0], right_plain=plain[1])
    assert found == result


def test_a_kind_must_be_on_the_list_and_fit_its_dimension():
    assert known_kind("gauge", PRESSURE) == "gauge"
    with pytest.raises(KindClash, match="'gauge' does not fit"):
        known_kind("gauge", LENGTH)
    with pytest.raises(UnknownUnit, match="Did you mean 'gauge'"):
        known_kind("guage", PRESSURE)
    with pytest.raises(UnknownUnit, match="Use one of: gauge, absolute"):
        known_kind("zzz", PRESSURE)
