"""Pack records into plain lists and back: one table for each class, one column a field.

Only the classes that the caller lists can be packed, and nothing else can come out: there is
no code in a packed file and no class name to look up. A record that several others hold is
packed once. Columns of one sort (plain values, records of one class, tuples or blocks of
either) are unpacked in one go, which makes this several times faster than record by record.
"""

from collections.abc import Callable, Sequence
from typing import Any

from planner.records import record

PLAIN = frozenset((str, int, float, bool, type(None)))
_FEW = 4
"""A column of texts is kept as a list of different texts when each stands this often."""


@record
class Kind:
    """A class that can be packed: how a record is taken apart and made again.

    ``make`` is called with the fields in order; the kinds of what they hold come earlier.
    """

    made_of: type
    take: Callable[[Any], Sequence[Any]]
    make: Callable[..., Any]


class Packer:
    """Packs records.

    Parameters
    ----------
    kinds
        What may be packed, each after all that its fields hold.
    """

    def __init__(self, kinds: Sequence[Kind]) -> None:
        self._kinds = kinds
        self._at = {kind.made_of: at for at, kind in enumerate(kinds)}
        self._rows: list[list[Sequence[Any]]] = [[] for _ in kinds]
        self._seen: dict[int, tuple[int, int]] = {}
        self._held: list[Any] = []

    def pack(self, root: object) -> list[Any]:
        """Pack a record and all that it holds.

        Raises
        ------
        TypeError
            When it holds something that is not among the kinds.
        """
        end = self._value(root)
        tables = [
            [_column(column) for column in zip(*rows, strict=True)] if rows else []
            for rows in self._rows
        ]
        return [tables, end]

    def _value(self, value: Any) -> Any:  # noqa: ANN401 - records hold anything
        """Pack one value: plain as it is, the rest as a list that starts with its sort."""
        if type(value) in PLAIN:
            return value
        at = self._at.get(type(value))
        if at is not None:
            return ["@", *self._record(at, value)]
        if type(value) is dict:
            return self._block(value)
        if type(value) is tuple:
            return ["(", self._all(value)]
        if type(value) is not frozenset:
            raise TypeError(f"{type(value).__name__} cannot be packed")
        return ["f", self._all(sorted(value))]

    def _block(self, block: dict[Any, Any]) -> list[Any]:
        """Pack a dict: names as JSON has them, other keys as pairs."""
        if all(type(key) is str for key in block):
            return ["{", {key: self._value(each) for key, each in block.items()}]
        return ["m", [[self._value(key), self._value(each)] for key, each in block.items()]]

    def _all(self, values: Sequence[Any]) -> list[Any]:
        plain = PLAIN
        return [each if type(each) in plain else self._value(each) for each in values]

    def _record(self, at: int, value: object) -> tuple[int, int]:
        found = self._seen.get(id(value))
        if found is None:
            fields = self._all(self._kinds[at].take(value))
            found = self._seen[id(value)] = (at, len(self._rows[at]))
            self._held.append(value)
            self._rows[at].append(fields)
        return found


def _column(values: Sequence[Any]) -> list[Any]:
    """Give the shortest form of a column: its sort, and what is left to say."""
    if list not in set(map(type, values)):
        return _plain(values)
    if (of := _one_kind(values)) is not None:
        return ["@", of, [None if each is None else each[2] for each in values]]
    for sort, inside in (("(", _items), ("{", _entries)):
        if all(type(each) is list and each[0] == sort for each in values):
            held = [inside(each[1]) for each in values]
            flat = [one for each in held for one in each]
            if not any(type(one) is list for one in flat):
                return [sort, [each[1] for each in values]]
            if None not in flat and (of := _one_kind(flat)) is not None:
                return [f"{sort}@", of, [_places(each[1]) for each in values]]
    return ["?", list(values)]


def _plain(values: Sequence[Any]) -> list[Any]:
    if set(map(type, values)) == {str}:
        different = list(dict.fromkeys(values))
        if len(different) * _FEW < len(values):
            place = {text: at for at, text in enumerate(different)}
            return ["$", different, [place[each] for each in values]]
    return ["=", list(values)]


def _one_kind(values: Sequence[Any]) -> int | None:
    """Return the kind that all records of a column have, if they are of one."""
    kinds = {each[1] if type(each) is list and each[0] == "@" else None for each in values}
    if any(each is not None and (type(each) is not list or each[0] != "@") for each in values):
        return None
    kinds.discard(None)
    found = kinds.pop() if len(kinds) == 1 else None
    return found if isinstance(found, int) else None


def _items(held: Any) -> list[Any]:  # noqa: ANN401 - packed values
    return list(held)


def _entries(held: Any) -> list[Any]:  # noqa: ANN401 - packed values
    return list(held.values())


def _places(held: Any) -> Any:  # noqa: ANN401 - packed values
    if isinstance(held, dict):
        return {key: each[2] for key, each in held.items()}
    return [each[2] for each in held]


class Unpacker:
    """Makes records again.

    Parameters
    ----------
    kinds
        The kinds they were packed with.
    """

    def __init__(self, kinds: Sequence[Kind]) -> None:
        self._kinds = kinds
        self.tables: list[list[Any]] = []

    def unpack(self, packed: Any) -> Any:  # noqa: ANN401 - what was packed comes out
        """Make every record, table by table, and return the one that was packed.

        Raises
        ------
        TypeError, ValueError, LookupError
            When the lists are not what `Packer.pack` makes.
        """
        tables, end = packed
        for kind, columns in zip(self._kinds, tables, strict=True):
            filled = [self._filled(column) for column in columns]
            self.tables.append(list(map(kind.make, *filled)) if filled else [])
        return self._value(end)

    def _filled(self, column: Any) -> list[Any]:  # noqa: ANN401 - packed values
        fill: dict[str, Callable[..., list[Any]]] = {
            "=": self._as_is,
            "$": self._texts,
            "@": self._records,
            "(": self._tuples,
            "{": self._as_is,
            "(@": self._tuples_of_records,
            "{@": self._blocks_of_records,
            "?": self._mixed,
        }
        sort, *rest = column
        return fill[sort](*rest)

    @staticmethod
    def _as_is(values: list[Any]) -> list[Any]:
        return values

    @staticmethod
    def _texts(different: list[str], places: list[int]) -> list[Any]:
        return list(map(different.__getitem__, places))

    def _records(self, of: int, places: list[int | None]) -> list[Any]:
        table = self.tables[of]
        return [None if each is None else table[each] for each in places]

    @staticmethod
    def _tuples(values: list[Any]) -> list[Any]:
        return list(map(tuple, values))

    def _tuples_of_records(self, of: int, places: list[list[int]]) -> list[Any]:
        table = self.tables[of]
        return [tuple([table[one] for one in each]) for each in places]

    def _blocks_of_records(self, of: int, places: list[dict[str, int]]) -> list[Any]:
        table = self.tables[of]
        return [{key: table[one] for key, one in each.items()} for each in places]

    def _mixed(self, values: list[Any]) -> list[Any]:
        return [self._value(each) for each in values]

    def _value(self, packed: Any) -> Any:  # noqa: ANN401 - packed values
        if type(packed) is not list:
            return packed
        sort = packed[0]
        if sort == "@":
            return self.tables[packed[1]][packed[2]]
        if sort in ("(", "f"):
            held = [self._value(each) for each in packed[1]]
            return tuple(held) if sort == "(" else frozenset(held)
        if sort == "{":
            return {key: self._value(each) for key, each in packed[1].items()}
        return {self._value(key): self._value(each) for key, each in packed[1]}
