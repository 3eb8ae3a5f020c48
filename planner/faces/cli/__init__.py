"""The command line `borewright`: parse, call, print. Commands open only when they are called."""

import gc
import sys

from planner.errors import BorewrightError
from planner.faces.cli.group import cli
from planner.faces.cli.output import complain


def main() -> None:
    """Run the command line; 0 is fine, 1 means problems in the job, 2 wrong use."""
    # A command runs once and ends: looking for rings of dead objects costs a tenth of it.
    gc.disable()
    try:
        cli(prog_name="borewright")
    except BorewrightError as error:
        complain(str(error))
        sys.exit(1)
    finally:
        gc.enable()
