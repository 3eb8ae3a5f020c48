# ruff: noqa: E501 - cases stand as an author writes them, one to a line
"""Cases in YAML: what they prove, what they report, which rows they reach."""

from planner.rulebook.rule_cases import run_cases
from tests.rulebook.books import load, write

RULES = """
decisions:
  rule:
    means: x
    gives: {unit: mm, range: "[0 mm .. 9 mm]"}
    table:
      columns: [use]
      rows:
        - {use: street, rule: 4 mm}
        - {use: track, rule: 5 mm}
    source: practice
  worst: {means: x, gives: {unit: mm, range: "[0 mm .. 9 mm]"}, compute: largest(guide) + rule, source: derived}
"""


def report(folder, text):
    rulebook = load(folder, RULES)
    book, _ = write(folder, RULES)
    (book / "cases").mkdir()
    (book / "cases" / "one.yaml").write_text(text)
    return run_cases(rulebook, [book])


def test_a_case_that_holds_passes_and_reaches_its_row(tmp_path):
    found = report(tmp_path, "cases:\n  a: {given: {use: street}, expect: {rule: 4 mm}}\n")
    assert (found.passed, found.problems, found.rows, found.reached) == (1, (), 2, 1)
    assert found.unreached[0][0] == "rule"


def test_a_case_may_give_other_results_and_items(tmp_path):
    text = "cases:\n  a: {items: {valve: 2}, given: {guide: {1: 0.1 mm, 2: 0.2 mm}, rule: 1 mm}, expect: {worst: 1.2 mm}}\n"
    found = report(tmp_path, text)
    assert (found.passed, found.problems) == (1, ())


def test_a_case_that_fails_says_what_came_and_what_was_expected(tmp_path):
    found = report(tmp_path, "cases:\n  a: {given: {use: street}, expect: {rule: 4.1 mm}}\n")
    (problem,) = found.problems
    assert "comes to 4.000 mm, and 4.1 mm was expected" in problem.what
    assert problem.place.line == 2


def test_a_case_can_expect_waiting(tmp_path):
    found = report(tmp_path, "cases:\n  a: {given: {}, expect: {rule: waiting}}\n")
    assert (found.passed, found.problems) == (1, ())


def test_slips_in_a_case_are_told(tmp_path):
    text = "cases:\n  a: {given: {uses: street}, expect: {rule: 4 mm}}\n  b: {given: {}, expect: {rul: 4 mm}}\n"
    found = report(tmp_path, text)
    assert "did you mean use?" in found.problems[0].fix
    assert "did you mean rule?" in found.problems[1].fix
