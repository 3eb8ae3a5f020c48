"""Walk a job file along the keys it may hold, and collect what each input finds there."""

from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass, field, replace

from planner.datafiles.nodes import Mapping, Node, Scalar
from planner.errors import Problem, nearest
from planner.planning.job_blocks import Reading
from planner.planning.job_keys import BLOCK_KEYS, Branch, allowed_keys
from planner.planning.job_nodes import unit_of_block, unknown_key
from planner.units import Unit


@dataclass(slots=True)
class Walk:
    """What a walk through the job found.

    Attributes
    ----------
    root
        Every key a job may hold.
    readings
        For each input in the job, the node that stands for it.
    texts
        Plain texts by their path, with their nodes.
    special
        Nodes read by parts of their own: engine, findings, given, progress.
    problems
        Keys nobody knows, and blocks that are not blocks.
    """

    root: Branch
    readings: list[Reading] = field(default_factory=list)
    texts: dict[str, Scalar] = field(default_factory=dict)
    special: dict[str, Node] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def through(self, node: Node, branch: Branch, unit: Unit | None = None) -> None:
        """Walk one key and all below it.

        Parameters
        ----------
        node
            What stands in the job.
        branch
            What may stand there.
        unit
            Unit of the block around it.
        """
        if branch.meaning == "special":
            self.special[branch.path] = node
            return
        if isinstance(node, Mapping):
            unit = unit_of_block(node, self.problems) or unit
        self.readings.extend(Reading(each, node, unit, branch) for each in branch.inputs)
        if branch.children:
            self._into(node, branch, unit)
        elif branch.meaning == "text":
            self._text(node, branch)

    def _into(self, node: Node, branch: Branch, unit: Unit | None) -> None:
        if not isinstance(node, Mapping):
            if not branch.inputs and not _empty(node):
                what = f"{branch.path or 'the job'} is not a block of keys"
                fix = f"write its keys under it: {', '.join(allowed_keys(branch))}"
                self.problems.append(Problem(what, fix, node.place))
            return
        for key, inner in node.entries:
            if key.text in branch.children:
                self.through(inner, branch.children[key.text], unit)
            elif not branch.inputs and not self._note(key.text, branch):
                self.problems.append(self._unknown(key, branch))

    def _unknown(self, key: Scalar, branch: Branch) -> Problem:
        """Word an unknown key; one that stands elsewhere in a job is sent there."""
        allowed = allowed_keys(branch)
        problem = unknown_key(key.text, branch.path, allowed, key.place)
        elsewhere = {path.rpartition(".")[2]: path for path in reversed(self.root.paths())}
        if key.text not in elsewhere and nearest(key.text, allowed):
            return problem
        offer = nearest(key.text, elsewhere)
        if offer is None:
            return problem
        fix = f"did you mean {elsewhere[offer]}? allowed: {', '.join(allowed)}"
        return replace(problem, fix=fix)

    def _note(self, key: str, branch: Branch) -> bool:
        """Tell whether a key is a unit or a note that a block of readings may hold."""
        return key in BLOCK_KEYS and key in allowed_keys(branch)

    def _text(self, node: Node, branch: Branch) -> None:
        if isinstance(node, Scalar):
            if node.value is not None:
                self.texts[branch.path] = node
            return
        if not branch.inputs:
            what = f"{branch.path} is a list or a block, where one text belongs"
            self.problems.append(Problem(what, "write one line of text", node.place))


def text_of(texts: AnyMapping[str, Scalar], path: str) -> str:
    """Return the text at a path, or nothing."""
    found = texts.get(path)
    return found.text.strip() if found else ""


def _empty(node: Node) -> bool:
    return isinstance(node, Scalar) and node.value is None
