"""The `why` command."""

from pathlib import Path

import click

from planner.faces.cli.options import audience_option, set_option, units_option
from planner.faces.cli.output import say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.assemble import explainer, system_of
from planner.planning.explaining import Explainer
from planner.planning.job_reader import read_job
from planner.rulebook.printing import System
from planner.sheets.why_text import decision_text, fitted, operation_text


@click.command("why")
@click.argument("job", type=click.Path(path_type=Path))
@click.argument("name", required=False)
@click.option("--before", nargs=2, metavar="A B", help="Why operation A stands before B.")
@click.option("--deep", is_flag=True, help="Go on down to the readings.")
@click.option(
    "--flips", "moves", is_flag=True, help="How far each input can move before it changes."
)
@audience_option
@set_option
@units_option
@overlays
def command(  # noqa: PLR0913, PLR0917 - a command takes its flags one by one
    job: Path,
    name: str | None,
    before: tuple[str, str] | None,
    deep: bool,
    moves: bool,
    audience: str,
    settings: tuple[str, ...],
    units: System | None,
    rules: tuple[Path, ...],
    catalogs: tuple[Path, ...],
) -> None:
    """Say why a decision, an operation or an order came out as it did.

    NAME is a decision, a result, an input or an operation of the JOB.
    """
    if (name is None) == (before is None):
        raise click.UsageError("Give one NAME, or --before and two operations.")
    rulebook = open_rulebook(rules, catalogs)
    reading = read_job(job, rulebook, settings)
    asked = explainer(reading, rulebook, units)
    if before is not None:
        say("\n".join(fitted(asked.before(*before))))
    elif name is not None and moves:
        say(_flips(asked, name))
    elif name is not None:
        told = []
        if asked.is_decision(name) or not asked.is_operation(name):
            lines = asked.decision(name, system_of(reading, units), deep=deep)
            told.append(decision_text(lines, asked.advice(name), asked.cautions(name), audience))
        if asked.is_operation(name):
            told.append(_operation(asked, name, audience))
        say("\n".join(told))


def _flips(asked: Explainer, name: str) -> str:
    """Work out the promise for one decision."""
    from planner.rulebook.flips import flips
    from planner.sheets.flips_text import flips_text

    decision = asked.decision_named(name)
    return flips_text(asked.results, decision, flips(asked.results, decision))


def _operation(asked: Explainer, name: str, audience: str) -> str:
    step = asked.step(name)
    if step is None:
        rule = asked.results.rulebook.operations[name]
        return f"{name} ({rule.does}) is not in this plan: nothing on this job calls for it."
    numbers = {each.id: each.step for each in asked.plan.operations}
    return operation_text(step, numbers, asked.afterwards(name), audience)
