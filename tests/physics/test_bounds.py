import pytest

from planner.errors import OutsideValidity
from planner.physics.bounds import KELVINS, MILLIMETRES, within


@pytest.mark.parametrize("value", [0.02, 0.05, 0.03])
def test_a_value_inside_or_on_its_limits_passes(value):
    within("journal diameter", value, 0.02, 0.05, MILLIMETRES)


@pytest.mark.parametrize(
    ("value", "shown"), [(0.0199, r"19\.9 mm"), (54.985, "54985 mm"), (float("nan"), "nan mm")]
)
def test_a_value_outside_is_shown_in_shop_units_with_both_limits(value, shown):
    with pytest.raises(OutsideValidity, match=f"journal diameter is {shown}, outside 20 to 50 mm"):
        within("journal diameter", value, 0.02, 0.05, MILLIMETRES)


def test_a_plain_number_is_shown_without_a_unit():
    with pytest.raises(OutsideValidity, match=r"^nut factor is 15, outside 0\.05 to 0\.4\."):
        within("nut factor", 15.0, 0.05, 0.4)


def test_the_remedy_given_is_the_one_shown():
    with pytest.raises(OutsideValidity) as refusal:
        within("rise", 500.0, 0, 400, KELVINS, remedy="Give a rise, not a reading.")
    assert "Give a rise, not a reading." in str(refusal.value)
