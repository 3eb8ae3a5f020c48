"""A shop with one job: it types what it measured, signs what it did, and asks the program."""

from dataclasses import dataclass, field
from pathlib import Path

from click.testing import CliRunner

from planner.datafiles.locate import shipped_folder
from planner.datafiles.reader import read_yaml
from planner.datafiles.splice import plain
from planner.errors import BorewrightError
from planner.faces.cli.group import cli
from planner.planning.asbuilt_table import take_asbuilt
from planner.planning.history import Edit, change_job, made_with
from planner.planning.reopened import Specs
from planner.planning.verification import Verified, verify_job
from planner.rulebook.load import load_rulebook

JOBS = Path(__file__).parents[2] / "shared" / "jobs"
DATA = JOBS / "larch-as-built"
_BOOKS = []


def rulebook():
    """Load the shipped rules once."""
    if not _BOOKS:
        _BOOKS.append(load_rulebook([shipped_folder("rules")], [shipped_folder("catalogs")]))
    return _BOOKS[0]


@dataclass
class Shop:
    """The job file and what the shop does to it."""

    job: Path
    told: dict[str, Verified] = field(default_factory=dict)

    def look(self, name: str = "") -> Verified:
        """Ask how things stand, and keep the answer under a name."""
        found = verify_job(self.job, rulebook())
        if name:
            self.told[name] = found
        return found

    def write(self, path, value, who, why):
        """Type one thing into the job."""
        edit = Edit(tuple(path.split(".")), value)
        change_job(self.job, [edit], who=who, why=why, made_with=made_with(rulebook()))

    def take(self, name, who="A. Alder"):
        """Bring a table of readings."""
        return take_asbuilt(self.job, DATA / f"{name}.csv", rulebook(), who)

    def sign(self, day, who, *names, only=False):
        """Sign operations, and before them everything that has to stand before them."""
        found = self.look()
        steps, done = found.asked.steps, dict(found.asked.steps.done)
        again = set(found.asked.plan.schedule.reopened)
        wanted = set(names)
        if not only:
            for name in reversed(steps.order):
                if name in wanted:
                    wanted |= set(steps.edges[name])
        specs = Specs(found.asked.results, found.asked.plan.parts)
        edits = []
        for name in steps.order:
            if name in wanted and (name not in done or name in again or only):
                # A step looked at again and found right keeps its day; a step done again does not.
                when = done[name].day if name in done and not only else day
                entry = {"done": when, "by": who, "spec": specs.code(name)}
                edits.append(Edit(("progress", name), entry))
        change_job(
            self.job,
            edits,
            who=who,
            why=f"signed {', '.join(names)}",
            made_with=made_with(rulebook()),
        )


@dataclass(frozen=True)
class Ran:
    """How a command went."""

    exit_code: int
    output: str
    stderr: str


def run(*words):
    """Run a command; what it refuses stands in the error text."""
    found = CliRunner().invoke(cli, [str(each) for each in words])
    refused = str(found.exception) if isinstance(found.exception, BorewrightError) else ""
    return Ran(found.exit_code, found.stdout, f"{refused}{found.stderr}")


def parts():
    """Read what the shop wrote of the parts that came."""
    return plain(read_yaml(DATA / "parts.yaml"))


def state(found: Verified, fit: str, where: str) -> str:
    """Say in which state one reading is."""
    return verdict(found, fit, where).state


def verdict(found: Verified, fit: str, where: str):
    """Return one verdict."""
    docs = {each.id: each for each in found.verification.fits}
    return next(each for each in docs[fit].items if each.where == where)


def hold(found: Verified, operation: str):
    """Return one hold point."""
    return next(each for each in found.verification.holds if each.operation == operation)


def cures(found: Verified, fit: str, where: str):
    """Return the cures of one reading, in their order."""
    return [each for each in found.verification.cures if (each.fit, each.where) == (fit, where)]
