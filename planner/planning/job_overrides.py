"""What-if: keys of a job replaced before it is read, as `--set goals.boost="20 psi"`."""

from collections.abc import Iterable

from planner.datafiles.nodes import Mapping, Node, Scalar, Sequence
from planner.datafiles.reader import read_yaml_text
from planner.errors import Place, Problem, ProblemsFound

SAMPLE = 'write KEY=VALUE, for example goals.boost="20 psi"'


def with_overrides(root: Node, settings: Iterable[str]) -> Node:
    """Return the job with some keys replaced or added.

    Parameters
    ----------
    root
        The job as read.
    settings
        Texts `KEY=VALUE`; the key is a dotted path, the value is read as YAML.

    Returns
    -------
    Node
        The changed job; the one given is left as it is.

    Raises
    ------
    ProblemsFound
        For every setting that is not KEY=VALUE, or whose path runs through a value.
    """
    problems: list[Problem] = []
    for setting in settings:
        try:
            root = _with_one(root, setting)
        except ProblemsFound as found:
            problems += found.problems
    if problems:
        raise ProblemsFound(problems)
    return root


def _with_one(root: Node, setting: str) -> Node:
    key, equals, text = setting.partition("=")
    source = f"--set {key.strip()}"
    path = [part.strip() for part in key.split(".")]
    if not equals or not all(path):
        raise ProblemsFound([Problem(f"--set {setting!r} is not KEY=VALUE", SAMPLE)])
    value = read_yaml_text(text, source)
    return _replaced(root, path, value, source)


def _replaced(node: Node | None, path: list[str], value: Node, source: str) -> Node:
    if not path:
        return value
    place = Place(source, 1, 1)
    if node is None or (isinstance(node, Scalar) and node.value is None):
        node = Mapping((), place, (0, 0))
    if isinstance(node, Sequence) or not isinstance(node, Mapping):
        what = f"{source} runs through a value that has no keys of its own"
        raise ProblemsFound([Problem(what, "name the key whose value is to change", node.place)])
    head, *rest = path
    new = _replaced(node.get(head), rest, value, source)
    entries = [(key, new if key.text == head else old) for key, old in node.entries]
    if node.get(head) is None:
        entries.append((Scalar(head, head, quoted=True, place=place, span=(0, 0)), new))
    return Mapping(tuple(entries), node.place, node.span)
