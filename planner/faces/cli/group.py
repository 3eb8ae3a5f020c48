"""The command group; a command's module is imported only when that command is called."""

from importlib import import_module

import click

from planner.errors import nearest, override

COMMANDS = {
    "new": ("new", "Write a starter job file, with a comment on every key."),
    "check": ("check", "Check a job file, or prove the rules."),
    "readings": ("readings", "Take readings from a spreadsheet, or write sheets to measure by."),
    "plan": ("plan", "Work a job out: specification, reasons, ordered operations."),
    "why": ("why", "Say why a decision or an operation came out as it did."),
    "sheets": ("sheets", "Write the packet of a job: HTML and PDF to hand out."),
    "map": ("map", "Draw ratio by boost: how far each stands from knock."),
    "compare": ("compare", "Say what changes between two jobs, or when keys are set anew."),
    "done": ("done", "Mark an operation done: who and when."),
    "asbuilt": ("asbuilt", "Hold the finished engine against its plan, and close its record."),
    "history": ("history", "Say who changed what in a job, and bring an old state back."),
    "serve": ("serve", "Show the jobs on a web page of this machine: the bench page."),
    "finish": ("finish", "Work out Ra, Rk, Rpk and Rvk from a roughness trace."),
    "rules": ("rules", "Look into the rulebook: show, names, impact of an edit."),
    "migrate": ("migrate", "Bring job files of an earlier format up to this one."),
    "schema": ("schema", "Print the JSON schema of the plan document or of a job."),
}


class LazyGroup(click.Group):
    """A group that knows the names and one-line helps of its commands without opening them."""

    @override
    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """List the commands in the order a job goes through them."""
        return list(COMMANDS)

    @override
    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 - as click's
        """Open one command."""
        if cmd_name not in COMMANDS:
            return None
        module = import_module(f"planner.faces.cli.{COMMANDS[cmd_name][0]}")
        command: click.Command = module.command
        return command

    @override
    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Offer the nearest command for one that does not exist."""
        name = args[0]
        offer = nearest(name, COMMANDS)
        if name not in COMMANDS and not name.startswith("-") and offer:
            ctx.fail(f"There is no command {name!r}. Did you mean {offer!r}?")
        return super().resolve_command(ctx, args)

    @override
    def format_commands(
        self,
        ctx: click.Context,  # noqa: ARG002 - click's signature
        formatter: click.HelpFormatter,
    ) -> None:
        """List the commands from the table above."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, text) for name, (_, text) in COMMANDS.items()])


def _version(ctx: click.Context, _: click.Parameter, value: bool) -> None:
    """Print the program's version, and the edition and check code of its rules."""
    if not value or ctx.resilient_parsing:
        return
    from planner.faces.cli.output import say
    from planner.faces.cli.rulebooks import version_text

    say(version_text())
    ctx.exit()


@click.group(
    cls=LazyGroup,
    invoke_without_command=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_version,
    help="Print version, rules edition and check code.",
)
def cli() -> None:
    """Plan the build of a worn turbo car engine, with the reason for every figure.

    A job is one YAML file: goals and teardown readings. Start one with
    `borewright new`, and plan it with `borewright plan JOB`.

    Exit codes: 0 fine, 1 problems found in the job, 2 wrong use.
    """
