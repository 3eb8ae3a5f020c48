# ruff: noqa: E501 - rules stand as an author writes them, one to a line
"""Each slip of a rule author gets one message, at its place, with its cure."""

import pytest

from tests.rulebook.books import problems

HEAD = "decisions:\n"


def decision(body: str, gives: str = '{unit: mm, range: "[0 mm .. 9 mm]"}') -> str:
    return f"{HEAD}  floor:\n    means: Least wall\n    gives: {gives}\n{body}"


TABLE = """    table:
      columns: [use]
      rows:
        - {use: street, floor: 4 mm}
        - {use: track, floor: 5 mm}
    source: practice
"""

SLIPS = [
    ("advise:\n  x: {}\n", "there is no heading 'advise'", "did you mean advice?"),
    (decision("    value: 4.0\n    source: practice\n"), "which has no unit", "write 4.0 mm"),
    (decision("    value: 4.0 kg\n    source: practice\n"), "floor", "mm"),
    (decision("    value: 40 mm\n    source: practice\n"), "40 mm, outside", "0 mm to 9 mm"),
    (decision("    value: 4 mm\n"), "no source is named", "practice"),
    (decision("    value: 4 mm\n    source: practise\n"), "no source 'practise'", "practice"),
    (decision("    valeu: 4 mm\n    source: practice\n"), "none of value", "exactly one"),
    (
        decision("    value: 4 mm\n    source: practice\n    sauce: x\n"),
        "has no key 'sauce'",
        "did you mean source?",
    ),
    (
        decision("    value: 4 mm\n    source: practice\n", "{unit: mm}"),
        "floor has no range",
        "complete",
    ),
    (
        decision(
            "    value: 4 bar\n    source: practice\n", '{unit: bar, range: "[0 bar .. 9 bar]"}'
        ),
        "a pressure without a kind",
        "gauge",
    ),
    (
        decision("    value: 4 mil\n    source: practice\n"),
        "mil",
        "thou",
    ),
    (
        decision("    compute: engine.stroke * 0,05\n    source: derived\n"),
        "comma",
        "decimals with a point",
    ),
    (
        decision("    compute: engine.strok * 0.05\n    source: derived\n"),
        "no field 'engine.strok'",
        "engine.stroke",
    ),
    (decision("    compute: stroke * 0.05\n    source: derived\n"), "no name 'stroke'", ""),
    (decision("    compute: boost\n    source: derived\n"), "another unit", ""),
    (decision("    compute: engine.housing\n    source: derived\n"), "limits", "name the part"),
    (
        decision("    compute: guide\n    source: derived\n"),
        "one value for each valve",
        "per: valve",
    ),
    (
        decision("    compute: engine.stroke > 3\n    source: derived\n"),
        "a comparison stands in a formula",
        "needs",
    ),
    (decision("    compute: engine.wall_floor\n    source: derived\n"), "optional", "weigh"),
    (decision("    compute: tan(engine.stroke)\n    source: derived\n"), "no function 'tan'", ""),
    (decision("    compute: __import__('os')\n    source: derived\n"), "no function", ""),
    (decision("    compute: '[1, 2]'\n    source: derived\n"), "may not hold that", ""),
    (decision("    compute: largest(engine.stroke)\n    source: derived\n"), "only one value", ""),
    (
        decision("    compute: engine.stroke ** boost\n    source: derived\n"),
        "exponent is not a plain number",
        "0.5",
    ),
    (
        decision("    compute: engine.stroke + engine.cylinders\n    source: derived\n"),
        "cannot go together",
        "one unit",
    ),
    (
        decision(TABLE.replace("street, floor", "stret, floor")),
        "stret",
        "street",
    ),
    (decision(TABLE.replace("        - {use: track, floor: 5 mm}\n", "")), "track", ""),
    (decision(TABLE.replace("use: track", "use: any")), "street", ""),
    (decision(TABLE.replace(", floor: 5 mm", "")), "gives no floor", "impossible"),
    (decision(TABLE.replace("columns: [use]", "columns: [uses]")), "no name 'uses'", "use"),
    (
        decision(TABLE.replace("columns: [use]", "columns: [engine.housing]")),
        "one number is needed",
        "name the part",
    ),
    (
        f"{HEAD}  wall:\n    means: x\n    choose: {{from: pinz, none: ask}}\n    source: practice\n",
        "'pinz', which is no stock",
        "did you mean pins?",
    ),
    (
        f"{HEAD}  wall:\n    means: x\n    choose: {{from: pins}}\n    source: practice\n",
        "no row passes",
        "none:",
    ),
    (
        f"{HEAD}  wall:\n    means: x\n    choose:\n      from: pins\n"
        "      needs: {thick: pins.wall}\n      none: ask\n    source: practice\n",
        "a need is one comparison",
        "LEFT >= RIGHT",
    ),
    (
        f"{HEAD}  wall:\n    means: x\n    choose:\n      from: pins\n"
        "      needs: {steel: pins.grade == toolsteel}\n      none: ask\n    source: practice\n",
        "no name 'toolsteel'",
        "",
    ),
    (
        decision(
            "    weigh: {says: {maker: engine.wall_floor}, governs: first}\n    source: practice\n"
        ),
        "the last voice may be not stated",
        "always speaks",
    ),
    (
        decision(
            "    weigh: {says: {maker: engine.wall_floor, practice: other}, governs: maker}\n"
            "    source: practice\n"
        )
        + "  other: {means: x, gives: {unit: mm, range: '[0 mm .. 9 mm]'}, value: 4 mm, source: practice}\n",
        "maker may be not stated",
        "else",
    ),
    (
        decision("    compute: floor + floor\n    source: derived\n"),
        "reads itself",
        "break the circle",
    ),
    (
        decision("    compute: other\n    source: derived\n")
        + "  other: {means: x, gives: {unit: mm, range: '[0 mm .. 9 mm]'}, compute: floor, source: derived}\n",
        "in a circle",
        "stand on inputs",
    ),
    (
        "advice:\n  a: {about: [nothing], builder: hello, source: practice}\n",
        "no decision 'nothing'",
        "",
    ),
    (
        "advice:\n  a: {builder: 'boost {bost}', source: practice}\n",
        "no name 'bost'",
        "did you mean boost?",
    ),
    ("advice:\n  a: {builder: '{boost + 1}', source: practice}\n", "is not a name", "arithmetic"),
    (
        "advice:\n  a: {when: {use: rally}, builder: x, source: practice}\n",
        "rally",
        "street",
    ),
    (
        "advice:\n  a: {when: {guide: over 0.1 mm}, builder: x, source: practice}\n",
        "one value for each valve",
        "some(",
    ),
    (
        "advice:\n  a:\n    builder: x\n    source: practice\n"
        "    cautions: [{severity: warn, text: hot}]\n",
        "severity 'warn'",
        "warning",
    ),
    (
        "operations:\n  wash: {does: Wash, lane: block, station: sink, if_skipped: grit, "
        "hours: {low: 1 h, likely: 2 h, high: 3 h}, after: {tear: dirt}, source: practice}\n",
        "no operation 'tear'",
        "",
    ),
    (
        "operations:\n  wash: {does: Wash, lane: block, station: sink, if_skiped: grit, "
        "hours: {low: 1 h, likely: 2 h, high: 3 h}, source: practice}\n",
        "no key 'if_skiped'",
        "if_skipped",
    ),
    (
        "operations:\n  wash: {does: Wash, lane: block, station: sink, if_skipped: grit, "
        "hours: {low: 3 h, likely: 2 h, high: 3 h}, source: practice}\n",
        "hours do not rise",
        "low, likely, high",
    ),
    ("stock_of: pins\nrows: {}\n", "stock rows stand in a rule file", "catalogs/pins.yaml"),
]


@pytest.mark.parametrize(("rules", "what", "fix"), SLIPS)
def test_a_slip_is_told_once_with_its_place_and_cure(tmp_path, rules, what, fix):
    found = problems(tmp_path, rules)
    told = [each for each in found if what in each]
    assert told, found
    assert ("rules.yaml:") in told[0]
    assert fix in told[0]


def test_a_broken_decision_is_not_reported_again_where_it_is_read(tmp_path):
    rules = decision("    value: 4 mm\n    source: practice\n", "{unit: furlong}") + (
        "  other: {means: x, gives: {unit: mm, range: '[0 mm .. 9 mm]'}, compute: floor * 1, "
        "source: derived}\n"
    )
    assert len(problems(tmp_path, rules)) == 1


def test_all_problems_come_in_one_run(tmp_path):
    rules = "".join(rule for rule, _, _ in SLIPS[1:4]).replace(HEAD, "")
    rules = HEAD + rules.replace("floor:", "one:", 1)
    rules = rules.replace("  floor:", "  two:", 1).replace("  floor:", "  three:", 1)
    assert len(problems(tmp_path, rules)) >= 3


def test_a_name_may_stand_only_once(tmp_path):
    rules = decision("    value: 4 mm\n    source: practice\n") + (
        "  wall: {means: x, gives: {floor: {unit: mm, range: '[0 mm .. 9 mm]'}}, value: 1 mm, "
        "source: practice}\n"
    )
    assert any("already a name" in each for each in problems(tmp_path, rules))
