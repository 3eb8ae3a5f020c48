"""The invented Sorrel: track, always ethanol, thin liners, a bedplate."""

import pytest

from tests.trade.conftest import MM, Answers


def test_always_ethanol_is_about_ten_to_one_with_a_warning(answers: Answers) -> None:
    sorrel = answers("sorrel")
    low, aim, high = (part * MM for part in sorrel.band("compression_ratio"))
    assert (low, high) == pytest.approx((9.8, 10.3))
    assert 9.8 <= aim <= 10.0
    texts = [each.text for advice in sorrel.results.advice for each in advice.cautions]
    assert any("rests on practice alone" in text for text in texts)


def test_the_first_oversize_cleans_all_six(answers: Answers) -> None:
    assert answers("sorrel").value("bore_oversize") == "84.25"


def test_a_liner_of_2_17_mm_is_watched_and_not_refused(answers: Answers) -> None:
    sorrel = answers("sorrel")
    assert sorrel.number("wall_after_bore", "5") / MM == pytest.approx(2.175)
    assert sorrel.value("wall_verdict", "5") == "watch"


def test_track_pistons_of_2618(answers: Answers) -> None:
    low, aim, high = answers("sorrel").band("piston_to_wall")
    assert (low, high) == pytest.approx((0.08425, 0.109525))
    assert low <= aim <= high


def test_the_pin_wall_follows_the_model_pressure_where_that_is_larger(answers: Answers) -> None:
    sorrel = answers("sorrel")
    assert sorrel.number("design_peak_pressure") > sorrel.number("pressure_practice")
    assert 6.5 <= round(sorrel.number("pin_wall") / MM, 6) <= 7.0


def test_a_polished_bedplate_is_accepted_with_a_note(answers: Answers) -> None:
    sorrel = answers("sorrel")
    assert sorrel.value("cap_and_brace") == "keep"
    assert sorrel.value("main_line_hone") == "not_needed"
    assert sorrel.value("housing_verdict", "4") == "watch"


def test_a_fire_ring_print_gets_a_light_cut(answers: Answers) -> None:
    assert answers("sorrel").band("deck_cut") == pytest.approx((0.03, 0.04, 0.05))


def test_ethanol_sometimes_is_built_for_petrol(answers: Answers) -> None:
    sorrel = answers("sorrel", "goals.ethanol=sometimes")
    assert sorrel.value("design_fuel") == "pump_petrol"
    assert 7.8 <= sorrel.band("compression_ratio")[1] * MM <= 8.0


def test_a_new_set_of_rods_is_preferred_to_resizing(answers: Answers) -> None:
    sorrel = answers("sorrel")
    assert sorrel.value("rod_route") == "new_set"
    assert str(sorrel.value("rod_grade")).startswith("forged_4340")
    assert sorrel.value("rod_bolt_grade") == "alloy_180_9"
