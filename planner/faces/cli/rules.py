"""The `rules` commands: look into the rulebook."""

from pathlib import Path

import click

from planner.errors import override
from planner.faces.cli.output import say
from planner.faces.cli.rulebooks import open_rulebook, overlays
from planner.planning.looking import names_of, rules_named
from planner.sheets.rules_text import names_text, rule_text


class _Rules(click.Group):
    """Opens `impact` only when it is called: it knows planning whole."""

    @override
    def list_commands(self, ctx: click.Context) -> list[str]:
        """List the commands."""
        return [*super().list_commands(ctx), "impact"]

    @override
    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Open one command."""
        if cmd_name != "impact":
            return super().get_command(ctx, cmd_name)
        from planner.faces.cli.impact import command as impact

        return impact


@click.group("rules", cls=_Rules)
def command() -> None:
    """Look into the rulebook."""


@command.command("show")
@click.argument("name")
@overlays
def show(name: str, rules: tuple[Path, ...], catalogs: tuple[Path, ...]) -> None:
    """Print a rule as it is written: decision, input, advice, operation or source NAME."""
    found = rules_named(open_rulebook(rules, catalogs), name)
    say("\n".join(rule_text(each) for each in found))


@command.command("names")
@click.argument("word", required=False, default="")
@overlays
def names(word: str, rules: tuple[Path, ...], catalogs: tuple[Path, ...]) -> None:
    """List the names of the rulebook, or those that hold WORD."""
    say(names_text(names_of(open_rulebook(rules, catalogs), word), word))
