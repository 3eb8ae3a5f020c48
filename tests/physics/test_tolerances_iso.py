import pytest

from planner.errors import OutsideValidity
from planner.physics.tolerances_iso import iso_tolerance, iso_tolerance_formula


@pytest.mark.published(
    "ISO 286-1:2010, table 1 (from memory, not opened): 22 mm IT6 13, 48 mm IT5 11, "
    "54 mm IT5/6/7 13/19/30, 58 mm IT7 30, 86 mm IT8 54, 86 mm IT9 87, 120 mm IT7 35 um"
)
@pytest.mark.parametrize(
    ("millimetres", "grade", "micrometres"),
    [
        (22, 6, 13),
        (48, 5, 11),
        (54, 5, 13),
        (54, 6, 19),
        (54, 7, 30),
        (58, 7, 30),
        (86, 8, 54),
        (86, 9, 87),
        (120, 7, 35),
    ],
)
def test_standard_tolerances_are_those_of_the_table(millimetres, grade, micrometres):
    found = iso_tolerance(size=millimetres / 1e3, grade=float(grade))
    assert found == pytest.approx(micrometres * 1e-6, abs=0.5e-6)


@pytest.mark.published(
    "ISO 286-1:2010, formula i = 0.45 D^(1/3) + 0.001 D, IT5 to IT11 = 7 10 16 25 40 64 100 i "
    "(from memory, not opened)"
)
@pytest.mark.parametrize("grade", range(5, 12))
@pytest.mark.parametrize("millimetres", [4, 8, 15, 25, 40, 65, 100, 150, 220, 280, 360, 450])
def test_the_table_is_the_rounded_formula(millimetres, grade):
    # The standard rounds by its own table; its largest steps are a tenth of the value.
    table = iso_tolerance(size=millimetres / 1e3, grade=float(grade))
    formula = iso_tolerance_formula(millimetres / 1e3, grade)
    assert table == pytest.approx(formula, rel=0.10)


def test_one_range_by_hand():
    # 50 to 80 mm: D = sqrt(4000) = 63.25, i = 0.45 x 3.984 + 0.063 = 1.856; 7 10 16 i.
    for grade, micrometres in ((5, 13.0), (6, 18.6), (7, 29.7)):
        assert iso_tolerance_formula(0.06, grade) * 1e6 == pytest.approx(micrometres, abs=0.05)


def test_the_end_of_a_range_belongs_to_it_however_it_is_rounded():
    for size in (0.05, 0.05 * (1 + 2e-16), 0.05 * (1 - 2e-16)):
        assert iso_tolerance(size=size, grade=6.0) == pytest.approx(16e-6)
    assert iso_tolerance(size=0.050001, grade=6.0) == pytest.approx(19e-6)


@pytest.mark.parametrize(
    ("size", "grade", "message"),
    [
        (0.003, 6.0, "nominal size is 3 mm, outside sizes above 3 mm"),
        (0.501, 6.0, "nominal size is 501 mm"),
        (0.05, 4.0, "grade is 4, outside 5 to 11"),
        (0.05, 6.5, r"grade is 6\.5, outside whole numbers"),
        (float("nan"), 6.0, "nominal size is nan"),
    ],
)
def test_sizes_and_grades_off_the_table_are_refused_by_name(size, grade, message):
    with pytest.raises(OutsideValidity, match=message):
        iso_tolerance(size=size, grade=grade)


@pytest.mark.parametrize("grade", range(5, 12))
def test_a_larger_size_never_has_a_smaller_tolerance(grade):
    steps = [iso_tolerance(size=mm / 1e3, grade=float(grade)) for mm in range(4, 501)]
    assert steps == sorted(steps)


@pytest.mark.parametrize("millimetres", [4, 25, 54, 86, 300])
def test_a_coarser_grade_never_has_a_smaller_tolerance(millimetres):
    grades = [iso_tolerance(size=millimetres / 1e3, grade=float(g)) for g in range(5, 12)]
    assert grades == sorted(grades)
