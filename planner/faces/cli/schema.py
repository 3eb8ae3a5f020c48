"""The `schema` command."""

import json
from pathlib import Path

import click

from planner.faces.cli.output import say
from planner.faces.cli.rulebooks import overlays


@click.command("schema")
@click.argument("what", type=click.Choice(["plan", "job"]), default="plan")
@overlays
def command(what: str, rules: tuple[Path, ...], catalogs: tuple[Path, ...]) -> None:
    """Print the JSON schema of the plan document, or of a job file."""
    if what == "plan":
        from planner.models.document import plan_schema

        schema = plan_schema()
    else:
        from planner.faces.cli.rulebooks import open_rulebook
        from planner.planning.job_schema import job_schema

        schema = job_schema(open_rulebook(rules, catalogs))
    say(json.dumps(schema, indent=2))
