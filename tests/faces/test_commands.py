"""The command line: what is printed where, exit codes, pipes and consoles."""

import json
import os
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

import planner.faces.cli as cli_package
from planner import __version__
from planner.faces.cli import check as check_module
from planner.faces.cli import rulebooks
from planner.faces.cli.group import COMMANDS
from planner.faces.cli.output import carried, coloured
from tests.planning.shop import JOB, folders

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def shop(monkeypatch, tmp_path):
    """Run commands on the small shop's rules, in an empty folder with its job."""
    rules, catalogs = folders()

    def found(kind):
        return {"rules": rules, "catalogs": catalogs}[kind]

    monkeypatch.setattr(rulebooks, "shipped_folder", found)
    monkeypatch.setattr(check_module, "shipped_folder", found)
    monkeypatch.chdir(tmp_path)
    Path("job.yaml").write_text(JOB, encoding="utf-8")
    return tmp_path


def run(*arguments):
    """Run as `main` does, with errors told on standard error."""
    return CliRunner().invoke(_whole, arguments)


@click.command("whole", context_settings={"ignore_unknown_options": True, "help_option_names": []})
@click.argument("arguments", nargs=-1, type=click.UNPROCESSED)
def _whole(arguments):
    """Call `main` with arguments."""
    argv, sys.argv = sys.argv, ["borewright", *arguments]
    try:
        cli_package.main()
    finally:
        sys.argv = argv


def test_help_lists_every_command_with_its_line():
    told = run("--help")
    assert told.exit_code == 0
    for name, (_, text) in COMMANDS.items():
        assert name in told.output
        assert text.split()[0] in told.output


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help(name):
    told = run(name, "--help")
    assert told.exit_code == 0
    assert len(told.output.splitlines()) > 4


def test_the_version_names_program_and_rules(shop):
    told = run("--version")
    assert told.output.startswith(f"borewright {__version__}, rules edition test, check code ")


def test_plan_prints_the_plan_and_exits_clean(shop):
    told = run("plan", "job.yaml")
    assert told.exit_code == 0
    assert told.stdout.startswith("BUILD PLAN: Test job")
    assert told.stderr == ""


def test_plan_as_json_is_the_document(shop):
    told = run("plan", "job.yaml", "--format", "json")
    assert json.loads(told.stdout)["schema"] == "borewright.plan/1"
    assert told.stdout.isascii()


def test_a_what_if_changes_the_plan_and_not_the_file(shop):
    before = Path("job.yaml").read_text(encoding="utf-8")
    told = run("plan", "job.yaml", "--set", "goals.use=track", "--only", "choices")
    assert "8.0 to 8.5, aim 8.3" in told.stdout
    assert Path("job.yaml").read_text(encoding="utf-8") == before


def test_problems_go_to_standard_error_with_exit_one_and_nothing_planned(shop):
    told = run("plan", "job.yaml", "--set", "goals.use=sreet", "--set", "goals.bost=1")
    assert told.exit_code == 1
    assert told.stdout == ""
    assert told.stderr.count("error:") == 2
    assert "--set goals.use:1:1: error: goals.use is 'sreet'" in told.stderr


def test_a_doubtful_reading_is_planned_asked_about_and_exits_one(shop):
    setting = "teardown.main_journals.readings.1=[[54.010, 53.984]]"
    told = run("plan", "job.yaml", "--set", setting)
    assert told.exit_code == 1
    assert "QUESTIONS TO SETTLE" in told.stdout
    assert "question:" in told.stderr


def test_a_setting_that_is_no_setting_is_told(shop):
    told = run("plan", "job.yaml", "--set", "boost")
    assert told.exit_code == 1
    assert "KEY=VALUE" in told.stderr


@pytest.mark.parametrize("setting", ["goals.use.deep=1", "teardown.findings.0=1"])
def test_a_setting_through_a_value_is_told(shop, setting):
    told = run("plan", "job.yaml", "--set", setting)
    assert told.exit_code == 1
    assert "runs through a value" in told.stderr


def test_a_file_that_is_not_there_is_told(shop):
    told = run("plan", "jb.yaml")
    assert told.exit_code == 1
    assert "jb.yaml" in told.stderr
    assert "Traceback" not in told.stderr


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"", "holds nothing"),
        (b"just words", "not a block"),
        (b"- 1\n- 2\n", "not a block"),
        (b"\xff\xfe\x00", ""),
        (b"a: [1\n", ""),
        (b"a: 1\na: 2\n", "a"),
    ],
)
def test_any_bytes_give_a_message_and_no_traceback(shop, content, what):
    Path("job.yaml").write_bytes(content)
    told = run("plan", "job.yaml")
    assert told.exit_code == 1
    assert told.stdout == ""
    assert "error:" in told.stderr
    assert what in told.stderr


def test_wrong_use_exits_two(shop):
    assert run("plan").exit_code == 2
    assert run("plan", "job.yaml", "--format", "pdf").exit_code == 2
    assert run("why", "job.yaml").exit_code == 2
    assert run("plan", "job.yaml", "--rules", "nowhere").exit_code == 2


def test_a_command_that_does_not_exist_offers_the_nearest():
    told = run("plann")
    assert told.exit_code == 2
    assert "Did you mean 'plan'?" in told.stderr


def test_why_tells_a_decision_and_an_operation(shop):
    told = run("why", "job.yaml", "bore_oversize").stdout
    assert "86.25: chosen: cleans the worst bore (86.250 mm >= 86.238 mm)" in told
    told = run("why", "job.yaml", "hone").stdout
    assert "After 3 bore: stock must be there" in told
    assert "HOLD POINT" in told


def test_why_goes_down_to_the_readings_when_asked(shop):
    assert "[typed in the job]" in run("why", "job.yaml", "bore_oversize", "--deep").stdout


def test_why_for_the_customer_is_the_reason_alone(shop):
    told = run("why", "job.yaml", "piston_to_wall", "--for", "customer").stdout
    assert told.startswith("Why: Room for the piston to grow.")
    assert "rules" not in told
    told = run("why", "job.yaml", "hone", "--for", "customer").stdout
    assert "We make each bore to its own piston." in told


def test_why_before_gives_the_chain(shop):
    told = run("why", "job.yaml", "--before", "crack_test", "hone").stdout
    assert told.startswith("crack_test stands before hone:")


def test_why_of_an_unknown_name_offers_the_nearest(shop):
    told = run("why", "job.yaml", "honee")
    assert told.exit_code == 1
    assert "Did you mean hone?" in told.stderr
    told = run("why", "job.yaml", "--before", "hone", "bor")
    assert told.exit_code == 1
    assert "Did you mean bore?" in told.stderr


def test_why_of_an_operation_nothing_calls_says_so(shop):
    told = run("why", "job.yaml", "line_hone", "--set", "teardown.findings=[]").stdout
    assert "not in this plan" in told


def test_check_of_a_job_counts_what_it_holds(shop):
    told = run("check", "job.yaml")
    assert told.exit_code == 0
    assert "The job reads well." in told.stdout


def test_check_of_a_doubtful_job_exits_one(shop):
    text = JOB.replace("[[53.986, 53.984]]", "[[54.010, 53.984]]")
    Path("job.yaml").write_text(text, encoding="utf-8")
    told = run("check", "job.yaml")
    assert told.exit_code == 1
    assert "job.yaml:19:43: question" in told.stderr
    assert "reads well" not in told.stdout


def test_check_of_the_rules_says_what_was_proved(shop):
    told = run("check")
    assert told.exit_code == 0
    assert "Rulebook edition test" in told.stdout
    assert "Table rows and findings reached by a case: 0 of 11." in told.stdout


def test_check_of_a_folder_proves_that_folder(shop):
    told = run("check", str(folders()[0]))
    assert told.exit_code == 0
    assert "Rulebook edition test" in told.stdout


def test_a_broken_row_is_caught_with_its_line(shop):
    book = shop / "mine" / "rules"
    book.mkdir(parents=True)
    text = (folders()[0] / "rules.yaml").read_text(encoding="utf-8")
    broken = text.replace(
        "guide_exhaust: over 0.06 to 0.08 mm", "guide_exhaust: over 0.06 to 0.07 mm"
    )
    (book / "rules.yaml").write_text(broken, encoding="utf-8")
    told = run("check", str(book))
    assert told.exit_code == 1
    assert "mine/rules/rules.yaml:" in told.stderr
    assert "fix:" in told.stderr


def test_operations_in_a_loop_are_caught(shop):
    book = shop / "mine"
    book.mkdir()
    text = (folders()[0] / "rules.yaml").read_text(encoding="utf-8")
    looped = text.replace("hold: crack decision before money,", "hold: x, after: {hone: no},")
    (book / "rules.yaml").write_text(looped, encoding="utf-8")
    told = run("check", str(book))
    assert told.exit_code == 1
    assert "operations in a loop" in told.stderr


def test_a_case_that_fails_is_told_with_exit_one(shop):
    book = shop / "mine"
    (book / "cases").mkdir(parents=True)
    (book / "cases" / "ratio.yaml").write_text(
        "cases:\n  street:\n    given: {boost: 1.1 bar gauge, use: street}\n"
        "    expect: {compression_ratio: 9.0 / 9.1 / 9.2}\n",
        encoding="utf-8",
    )
    told = run("check", "--rules", str(book))
    assert told.exit_code == 1
    assert "cases/ratio.yaml:4:" in told.stderr


def test_a_shop_overlay_replaces_a_decision_and_is_reported(shop):
    book = shop / "mine"
    book.mkdir()
    (book / "ours.yaml").write_text(
        "decisions:\n  honing_stock: {means: Our stock, value: 0.15 mm, source: practice, "
        'gives: {unit: mm, kind: clearance on diameter, range: "[0 mm .. 1 mm]"}}\n',
        encoding="utf-8",
    )
    assert "honing_stock" in run("check", "--rules", str(book)).stdout
    told = run("plan", "job.yaml", "--rules", str(book), "--only", "choices").stdout
    assert "= 86.50" in told
    assert "Shop rules" in told


def test_rules_show_prints_the_rule_as_written(shop):
    told = run("rules", "show", "bore_oversize").stdout
    assert told.startswith("decision bore_oversize, ")
    assert "cleans the worst bore: oversizes.size >= size_needed" in told
    assert "is read by  wall_left" in told
    assert "operation hone," in run("rules", "show", "hone").stdout
    assert "input boost," in run("rules", "show", "boost").stdout


def test_rules_show_of_an_unknown_name_offers_the_nearest(shop):
    told = run("rules", "show", "bore_oversiz")
    assert told.exit_code == 1
    assert "Did you mean bore_oversize?" in told.stderr


def test_rules_names_lists_every_sort_and_finds_a_word(shop):
    told = run("rules", "names").stdout
    for sort in ("INPUTS", "FINDINGS", "CATALOGS", "SETS", "DECISIONS", "ADVICE", "OPERATIONS"):
        assert sort in told
    told = run("rules", "names", "clearance").stdout
    assert "piston_to_wall" in told
    assert "compression_ratio" not in told
    assert "No name" in run("rules", "names", "xyzzy").stdout


def test_schemas_are_json(shop):
    assert json.loads(run("schema").stdout)["title"] == "borewright.plan/1"
    job = json.loads(run("schema", "job").stdout)
    assert job["properties"]["goals"]["properties"]["use"]["enum"][:2] == ["track", "street"]
    assert "bores" in job["properties"]["teardown"]["properties"]


@pytest.mark.parametrize("engine", ["test-2.0", "inline"])
@pytest.mark.parametrize("stage", ["enquiry", "inspected", "released"])
def test_a_starter_job_reads_without_a_problem(shop, engine, stage):
    told = run("new", "mine.yaml", "--engine", engine, "--stage", stage)
    assert told.exit_code == 0
    assert told.stdout == ""
    checked = run("check", "mine.yaml")
    assert checked.exit_code == 0, checked.stderr
    assert "enquiry" in checked.stdout


def test_a_starter_asks_only_as_far_as_its_stage(shop):
    assert "teardown:" not in run("new", "--engine", "test-2.0", "--stage", "enquiry").stdout
    told = run("new", "--engine", "test-2.0").stdout
    assert "teardown:" in told
    assert "cap_fretting" in told
    assert "parts_in_hand:" not in told


def test_a_starter_never_overwrites(shop):
    told = run("new", "job.yaml", "--engine", "inline")
    assert told.exit_code == 1
    assert "job.yaml is there already." in told.stderr
    assert Path("job.yaml").read_text(encoding="utf-8") == JOB


def test_a_starter_in_a_folder_that_is_not_there_is_told(shop):
    told = run("new", "nowhere/job.yaml")
    assert told.exit_code == 1
    assert "cannot be written" in told.stderr


def test_a_starter_for_an_unknown_engine_offers_the_nearest(shop):
    told = run("new", "--engine", "test-20")
    assert told.exit_code == 1
    assert "Did you mean test-2.0?" in told.stderr


# ------------------------------------------------------------------ consoles


@pytest.mark.parametrize(
    ("text", "encoding", "shown"),
    [
        ("±0.002 mm", "utf-8", "±0.002 mm"),
        ("±0.002 mm, 3 µm, 12 cm³", "ascii", "+/-0.002 mm, 3 um, 12 cm3"),
        ("±0.002 mm", "latin-1", "±0.002 mm"),
        ("0.5 ≥ 0.4 ₇", "ascii", "0.5 >= 0.4 ?"),
    ],
)
def test_a_sign_is_changed_only_where_the_console_cannot_show_it(text, encoding, shown):
    assert carried(text, encoding) == shown


def test_colour_adds_nothing_that_the_words_do_not_say():
    line = "pin_wall: Wall    FIRM"
    assert click.unstyle(coloured(line)) == line
    assert coloured(line) != line


def command(*arguments, **environment):
    return subprocess.run(
        [sys.executable, "-m", "planner", *arguments],
        cwd=ROOT,
        env={**os.environ, **environment},
        capture_output=True,
        check=False,
        timeout=60,
    )


def test_help_runs_as_a_module_in_an_ascii_pipe():
    told = command("--help", PYTHONIOENCODING="ascii", NO_COLOR="1")
    assert told.returncode == 0
    assert told.stdout.isascii()


def test_help_opens_no_heavy_library():
    code = (
        "import sys; sys.argv = ['borewright', '--help']\n"
        "from planner.faces.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "heavy = {'pydantic', 'numpy', 'pint', 'networkx', 'rich', 'yaml', 'jinja2'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    told = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, check=True, text=True
    )
    assert told.stdout.splitlines()[-1] == "[]"


def test_a_plan_opens_no_library_it_does_not_need(shop):
    rules, catalogs = folders()
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "import planner.faces.cli.rulebooks as books\n"
        f"books.shipped_folder = {{'rules': Path({str(rules)!r}), "
        f"'catalogs': Path({str(catalogs)!r})}}.__getitem__\n"
        f"sys.argv = ['borewright', 'plan', {str(shop / 'job.yaml')!r}]\n"
        "from planner.faces.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "heavy = {'pydantic', 'pint', 'networkx', 'rich', 'jinja2'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    told = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, check=True, text=True
    )
    assert told.stdout.splitlines()[-1] == "[]"
