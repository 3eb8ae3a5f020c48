"""The text of a file before it is YAML: its encoding and its characters."""

import re

from planner.errors import Place, Problem, ProblemsFound

_BYTE_ORDER_MARK = "\ufeff"
_UTF16 = (b"\xff\xfe", b"\xfe\xff")
# Everything but what YAML calls printable; the line breaks no editor counts are left out too.
_FORBIDDEN = re.compile(
    "[^\\t\\n\\r\\x20-\\x7e\\xa0-\\u2027\\u202a-\\ud7ff"
    "\\ue000-\\ufefe\\uff00-\\ufffd\\U00010000-\\U0010ffff]"
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
    return [
        Problem(
            f"character U+{ord(found[0]):04X} cannot stand in a file that people edit",
            "delete it and type the text again",
            place_of(text, found.start(), file),
        )
        for found in _FORBIDDEN.finditer(text)
    ]


def place_of(text: str, index: int, file: str) -> Place:
    """Turn a character offset into a place, counting lines as editors do."""
    lines = re.split("\r\n|\r|\n", text[:index])
    return Place(file, len(lines), len(lines[-1]) + 1)
