"""The text of a file before it is YAML: its encoding and its characters."""

import re
from collections.abc import Iterator
from itertools import islice

from planner.errors import Place, Problem, ProblemsFound

MOST = 50
_BYTE_ORDER_MARK = "\ufeff"
_UTF16 = (b"\xff\xfe", b"\xfe\xff")
# What YAML does not call printable, and the line breaks that no editor counts.
_FORBIDDEN = (
    (0x00, 0x08),
    (0x0B, 0x0C),
    (0x0E, 0x1F),
    (0x7F, 0x9F),
    (0x2028, 0x2029),
    (0xD800, 0xDFFF),
    (0xFEFF, 0xFEFF),
    (0xFFFE, 0xFFFF),
)


def decoded(raw: bytes, file: str) -> str:
    """Turn bytes into text, or say where the first byte stands that is not UTF-8.

    Raises
    ------
    ProblemsFound
        When the bytes are not UTF-8.
    """
    if raw.startswith(_UTF16):
        raise ProblemsFound(
            [
                Problem(
                    "the file is saved as UTF-16",
                    "save it again as UTF-8",
                    Place(file, 1, 1),
                )
            ]
        )
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8")
        raise ProblemsFound(
            [
                Problem(
                    f"byte 0x{raw[error.start]:02x} is not UTF-8 text",
                    "save the file as UTF-8",
                    place_of(before, len(before), file),
                )
            ]
        ) from error


def without_mark(text: str) -> str:
    """Drop the byte order mark that some editors put first."""
    return text.removeprefix(_BYTE_ORDER_MARK)


def character_problems(text: str, file: str) -> list[Problem]:
    """List the characters that no shop file should hold: NUL, control codes, odd breaks."""
    forbidden = {each for each in set(text) if _is_forbidden(ord(each))}
    if not forbidden:
        return []
    return [
        Problem(
            f"character U+{ord(found):04X} cannot stand in a file that people edit",
            "delete it and type the text again",
            place_of(text, index, file),
        )
        for index, found in islice(_found(text, forbidden), MOST)
    ]


def _is_forbidden(code: int) -> bool:
    return any(low <= code <= high for low, high in _FORBIDDEN)


def _found(text: str, forbidden: set[str]) -> Iterator[tuple[int, str]]:
    """Give the forbidden characters with their offsets."""
    return ((index, each) for index, each in enumerate(text) if each in forbidden)


def place_of(text: str, index: int, file: str) -> Place:
    """Turn a character offset into a place, counting lines as editors do."""
    lines = re.split("\r\n|\r|\n", text[:index])
    return Place(file, len(lines), len(lines[-1]) + 1)
