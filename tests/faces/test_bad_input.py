"""What is typed wrong is told at its place with what was probably meant, all in one run."""

import re
from pathlib import Path

import pytest

from tests.faces.test_commands import run

ROOT = Path(__file__).resolve().parents[2]
LARCH = (ROOT / "shared" / "jobs" / "larch.yaml").read_text(encoding="utf-8")

# Each slip: what stands in the demo job, what is typed instead, and what must be told of it.
SLIPS = {
    "no unit": ("rev_ceiling: 7200 rpm", "rev_ceiling: 7200", "write 7200 rpm"),
    "boost in psi typed as bar": ("boost: 1.1 bar gauge", "boost: 20 bar", "20 psi = 1.37895 bar"),
    "another sort of unit": (
        "altitude_high: 600 m ",
        "altitude_high: 600 kg ",
        "a unit of length",
    ),
    "unknown key": ("corner_load: 0.9", "corner_laod: 0.9", "did you mean corner_load?"),
    "unknown word": ("fuel: premium ", "fuel: premum ", "did you mean premium?"),
    "gauge left open": ("idle: 0.7 bar gauge", "idle: 0.7 bar", "write 0.7 bar gauge"),
    "bore in inches": ("1: [[86.071,", "1: [[3.386,", "3.386 in = 86.0044 mm"),
    "not a number": ("2: [[86.078,", "2: [[.nan,", "the number that was read"),
    "smaller than new": ("4: [[86.069, 86.044", "4: [[86.069, 85.644", "gauge set on a standard"),
    "negative": ("run_out: 0.04 mm", "run_out: -0.04 mm", "allowed: 0 mm to 2 mm"),
    "a list": ("flatness: 0.06 mm ", "flatness: [0.06 mm, 0.07 mm] ", "write one number"),
    "a reading left out": ("2: 5.9, 3: 5.6,", "2: 5.9,", "write 3: unknown"),
    "clearance in thou": (
        "  weeks: 10\n",
        "  weeks: 10\ngiven: {piston_to_wall: {low: 3.5 mm, high: 3.6 mm, from: drawing}}\n",
        "3.5 thou = 0.0889 mm",
    ),
    "places turned round": (
        "altitude_low: 150 m",
        "altitude_low: 950 m",
        "the lowest place is not above the highest",
    ),
}
PLACED = re.compile(r"^\S+\.yaml:\d+:\d+: (error|question): ")


def planned(tmp_path, *slips):
    text = LARCH.replace("altitude_high: 600 m\n", "altitude_high: 600 m \n")
    text = text.replace("fuel: premium   ", "fuel: premium ")
    for was, typed, _ in slips:
        assert was in text, was
        text = text.replace(was, typed, 1)
    path = tmp_path / "job.yaml"
    path.write_text(text, encoding="utf-8")
    done = run("plan", str(path))
    assert sorted(each.name for each in tmp_path.iterdir()) == ["job.yaml"]
    assert path.read_text(encoding="utf-8") == text
    return done


@pytest.mark.parametrize("name", SLIPS)
def test_each_slip_is_told_at_its_place_with_what_was_probably_meant(tmp_path, name):
    done = planned(tmp_path, SLIPS[name])
    told = done.stderr
    assert done.exit_code == 1
    assert SLIPS[name][2] in told.replace("\n", " ")
    assert all(PLACED.match(line) for line in told.splitlines() if not line.startswith("  fix: "))
    assert "Traceback" not in told


def test_every_slip_is_told_in_one_run_and_no_plan_is_printed(tmp_path):
    apart = [each for name, each in SLIPS.items() if name != "places turned round"]
    done = planned(tmp_path, *apart)
    told = done.stderr
    assert done.exit_code == 1
    assert done.stdout == ""
    assert [says for _, _, says in apart if says not in told] == []


def test_a_deck_that_does_not_fit_its_stack_is_asked_about(tmp_path):
    done = run("new", "--engine", "inline", str(tmp_path / "new.yaml"))
    assert done.exit_code == 0
    text = (tmp_path / "new.yaml").read_text(encoding="utf-8")
    sizes = {"stroke": "94 mm", "rod_length": "150 mm", "compression_height": "31.5 mm"}
    for name, size in (sizes | {"deck_height": "253.5 mm"}).items():
        text = re.sub(rf"^  {name}:", f"  {name}: {size}", text, count=1, flags=re.MULTILINE)
    (tmp_path / "odd.yaml").write_text(text, encoding="utf-8")
    asked = run("plan", str(tmp_path / "odd.yaml"))
    assert asked.exit_code == 1
    assert "engine.deck_height is 253.500 mm" in asked.stderr
    assert "come to 228.500 mm" in asked.stderr


@pytest.mark.parametrize(
    "content", [b"", b"\xff\xfe\x00", b"job: [\n", b"- 1\n", b"a: *b\n", b"\0"]
)
def test_no_bytes_bring_a_traceback(tmp_path, content):
    path = tmp_path / "job.yaml"
    path.write_bytes(content)
    done = run("plan", str(path))
    assert done.exit_code == 1
    assert done.stderr
    assert done.exception is None or isinstance(done.exception, SystemExit)
