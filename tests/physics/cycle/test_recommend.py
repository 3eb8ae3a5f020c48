import pytest

from planner.physics.cycle.recommend import Trust, recommend
from tests.physics.cycle.cases import BAR, CONSTANTS, RPM, full_boost, latest, off_boost

TRUST = Trust(
    petrol_boost=CONSTANTS["highest_petrol_boost"],
    alcohol_boost=CONSTANTS["highest_ethanol_boost"],
    near_low=CONSTANTS["near_band_from"],
    near_high=CONSTANTS["near_band_to"],
    middle_low=CONSTANTS["middle_band_from"],
    middle_high=CONSTANTS["middle_band_to"],
    near_band=CONSTANTS["near_band"],
    middle_band=CONSTANTS["middle_band"],
    far_band=CONSTANTS["far_band"],
    much_ethanol=CONSTANTS["much_ethanol"],
)


def say(fuel="premium", boost=0.9, *, direct=False, positive=False, **changed):
    full = full_boost(fuel, boost * BAR, **changed)
    return recommend(off_boost(fuel), full, latest(), TRUST, direct=direct, positive=positive)


def test_a_usual_engine_gets_a_ratio_and_a_band():
    found = say()
    assert (found.ratio, found.band, found.governs) == (8.5, 0.3, "full boost")
    assert found.in_range
    assert found.says.startswith("The model says 8.5, give or take 0.3.")
    assert "preignition" in found.says
    assert "not a safe spark" in found.says


def test_without_boost_the_low_speed_governs():
    found = say(boost=0.0)
    assert found.governs == "off boost"
    assert found.phasing_limit == latest()[0]


@pytest.mark.parametrize(
    ("fuel", "boost", "band"),
    [
        ("premium", 0.7, 0.3),
        ("premium", 1.1, 0.3),
        ("premium", 0.6, 0.6),
        ("premium", 1.15, 0.6),
        ("premium", 0.2, 1.0),
        ("e85", 0.9, 0.6),
        ("e85", 1.6, 1.0),
    ],
)
def test_the_band_widens_away_from_the_anchor(fuel, boost, band):
    assert say(fuel, boost).band == band


@pytest.mark.parametrize(
    ("given", "what", "back"),
    [
        ({"boost": 1.4}, "1.4 bar of boost on petrol", "boost of 1.2 bar or less"),
        ({"fuel": "e85", "boost": 1.8}, "1.8 bar of boost on ethanol", "1.5 bar or less"),
        ({"fuel": "methanol"}, "methanol", "petrol or ethanol"),
        ({"direct": True}, "direct injection", "port injection"),
        ({"positive": True}, "positive-displacement blower", "a turbocharger"),
    ],
)
def test_outside_its_range_it_says_so_and_what_brings_it_back(given, what, back):
    found = say(**given)
    assert not found.in_range
    assert found.ratio is not None
    assert found.says.startswith(f"Outside its range the model says {found.ratio}")
    assert what in found.says
    assert back in found.says


def test_no_ratio_is_said_in_words():
    hopeless = say(boost=1.2, octane=75.0, charge_temperature=400.0)
    assert hopeless.ratio is None
    assert "no ratio: a ratio below 5.5" in hopeless.says
    assert "less boost" in hopeless.says
    full = full_boost(boost=0.0, octane=124.0, speed=9000 * RPM)
    easy = recommend(full, full, latest(), TRUST, direct=False, positive=False)
    assert "knock does not limit it" in easy.says
