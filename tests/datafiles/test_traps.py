import pytest
import yaml

from planner.datafiles import reader
from planner.datafiles.reader import read_yaml_text
from planner.errors import ProblemsFound


@pytest.fixture(params=["CSafeLoader", "SafeLoader"], autouse=True)
def loader(request, monkeypatch):
    monkeypatch.setattr(reader, "LOADER", getattr(yaml, request.param))


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("boost: > 10 psi\n", 1, "starts with > is not in quotes"),
        ("rows:\n  - {boost: > 10 psi, use: street}\n", 2, "starts with > is not in quotes"),
        ("rows:\n  - {boost: >= 10 psi}\n", 2, "starts with > is not in quotes"),
        ("r: {range: [0 bar .. 4 bar], unit: bar}\n", 1, "[0 bar .. 4 bar] is read as a list"),
        ("r:\n  range: [0 bar .. 4 bar]\n", 2, "[0 bar .. 4 bar] is read as a list"),
        ("r: {range: [0 bar .. 4 bar), unit: bar}\n", 1, "an interval that starts with"),
        ("r: {range: (0 bar .. 4 bar], unit: bar}\n", 1, "an interval that starts with"),
        ("use: -\n", 1, "a lone - cannot stand for any"),
        ("rows:\n- boost: 1 bar\n  use: -\n", 3, "a lone - cannot stand for any"),
        ("a: {because: usual wear, at this mileage, until: x}\n", 1, "'at this mileage' has no"),
        ("a: {speed: 8,000 rpm}\n", 1, "'000 rpm' cuts a number in two"),
        ("a: {gap: 0,85 mm}\n", 1, "'85 mm' cuts a number in two"),
        ("a:\n\tb: 1\n", 2, "indented with a tab"),
        ("a: 1\nb: 'x\nc: 2\n", 2, "opened and never closed"),
        ('a: "x\n', 1, "opened and never closed"),
        ("a: x: y\n", 1, "a colon followed by a space"),
        ("boost:1.1 bar\nfuel: e85\n", 2, "no space behind it"),
        ("a: @x\n", 1, "may not start with @"),
        ("a: `x`\n", 1, "may not start with @"),
        ("a: %5\n", 1, "may not start with @"),
        ("a: * \n", 1, "may not start with *"),
        ("a: {x: 1, y: 2\nb: 3\n", 2, "a bracket { or [ is not closed"),
        ("a:\n  - 1\n - 2\n", 3, "fits neither the list nor the names"),
        ("- 1\nx: 3\n", 2, "fits neither the list nor the names"),
        ("a: .nan\n", 1, ".nan is no measurement"),
        ("a: -.INF\n", 1, "-.INF is no measurement"),
        ("a: 1e999\n", 1, "1e999 is no measurement"),
        ("[1, 2]: 3\n", 1, "where a name is due"),
    ],
)
def test_each_trap_is_named_where_it_stands(text, line, said):
    with pytest.raises(ProblemsFound) as found:
        read_yaml_text(text, "f.yaml")
    problem = found.value.problems[0]
    assert said in problem.what
    assert problem.place.line == line
    assert problem.fix


@pytest.mark.parametrize(
    "text",
    [
        "boost: < 10 psi\n",
        "{use: -, boost: any}\n",
        'boost: "> 10 psi"\n',
        'range: "[0 bar .. 4 bar]"\n',
        "sizes: [1, 2]\n",
        "note: over 0.7 to 1.4 bar\n",
        "band: 0.080 / 0.090 / 0.100 mm\n",
        "url: see a:b\n",
    ],
)
def test_what_is_no_trap_is_read(text):
    assert read_yaml_text(text, "f.yaml")


def test_traps_of_several_rows_are_told_in_one_run():
    text = "rows:\n  - {a: 1, x}\n  - {a: 2, y}\n  - {r: [0 mm .. 1 mm]}\n"
    with pytest.raises(ProblemsFound) as found:
        read_yaml_text(text, "f.yaml")
    assert [each.place.line for each in found.value.problems] == [2, 3, 4]
