"""Options that several commands share."""

from collections.abc import Callable
from typing import Any

import click

AUDIENCES = ("builder", "machinist", "customer")
UNITS = ("metric", "inch", "both")
Command = Callable[..., Any]


def audience_option(command: Command) -> Command:
    """Add --for, the person who reads."""
    return click.option(
        "--for",
        "audience",
        type=click.Choice(AUDIENCES),
        default="builder",
        show_default=True,
        help="Who reads it.",
    )(command)


def set_option(command: Command) -> Command:
    """Add --set, what-if settings."""
    return click.option(
        "--set",
        "settings",
        multiple=True,
        metavar="KEY=VALUE",
        help='What if: replace a key of the job, as goals.boost="20 psi".',
    )(command)


def units_option(command: Command) -> Command:
    """Add --units, what sizes are printed in."""
    return click.option(
        "--units", type=click.Choice(UNITS), help="Units to print in; the job's own if not given."
    )(command)
