"""A file's content as a tree of texts with their places, before anything is checked.

YAML and JSON come out alike: every scalar is text as written (`3/4`, `12:30`, `no`), and every node
knows where it stands. A `Refused` node is a value that is not read, with the reason.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate.errors import Fault, Place

MAX_DEPTH = 12
MOST_ALIKE = 50
"""How many tabs or stray characters of one file are told; a binary file has thousands."""
TOO_DEEP = (
    f"this is nested more than {MAX_DEPTH} levels deep",
    "a review needs no more than seven; look for a stray bracket or indent",
)


class Unreadable(Exception):
    """A file, or a line of one, that cannot be read at all. Caught where files are loaded."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__(*faults)
        self.faults = faults


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A scalar as written.

    `lead` counts the columns from `place` to the first character (1 inside quotes); None where
    the file's characters are not the text's (folded lines, escapes).
    """

    place: Place
    text: str
    lead: int | None = None

    def at(self, offset: int) -> Place:
        """The place of the character at `offset` (from 0), or the start where it is not known."""
        if self.lead is None:
            return self.place
        return dataclasses.replace(self.place, column=self.place.column + self.lead + offset)


@dataclass(frozen=True, slots=True, kw_only=True)
class Many:
    """A list."""

    place: Place
    entries: tuple[Node, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyed:
    """Keys with their values in the order of the file, repeated keys included."""

    place: Place
    entries: tuple[tuple[Text, Node], ...]

    def get(self, name: str) -> Node | None:
        """The value of a key, the first where it is repeated; None where it is absent."""
        return next((node for key, node in self.entries if key.text == name), None)

    def key(self, name: str) -> Text | None:
        """The key itself, for its place."""
        return next((key for key, _ in self.entries if key.text == name), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """A value that is not read, and why."""

    place: Place
    wrong: str
    right: str


Node = Text | Many | Keyed | Refused
Plain = str | list["Plain"] | dict[str, "Plain"]


def lead(line: str, column: int, text: str) -> int | None:
    """How far a scalar's text starts after `column` (from 0) of its line; None if not as is."""
    for quote in (0, 1):
        if line.startswith(text, column + quote):
            return quote
    return None


def plain(node: Node) -> Plain:
    """The node as strings, lists and dicts: the first of repeated keys, refused values empty."""
    match node:
        case Text(text=text):
            return text
        case Many(entries=entries):
            return [plain(entry) for entry in entries]
        case Keyed(entries=pairs):
            found: dict[str, Plain] = {}
            for key, value in pairs:
                found.setdefault(key.text, plain(value))
            return found
        case Refused():
            return ""


def find(node: Node, path: Sequence[int | str]) -> Node:
    """The node at `path`, or the last one on the way that exists."""
    for step in path:
        child = _child(node, step)
        if child is None:
            return node
        node = child
    return node


def _child(node: Node, step: int | str) -> Node | None:
    match node, step:
        case Keyed(), str(name):
            return node.get(name)
        case Many(entries=entries), int(index) if index < len(entries):
            return entries[index]
        case Many(), str(letter) if len(letter) == 1:  # choices given as a list: A is the first
            return _child(node, ord(letter) - ord("A"))
        case _:
            return None


def structural_faults(node: Node, under: str = "") -> Iterator[Fault]:
    """Repeated keys and refused values anywhere in the node; `under` is the key it belongs to."""
    match node:
        case Refused(place=place, wrong=wrong, right=right):
            yield Fault(place=place, wrong=wrong, right=right)
        case Many(entries=entries):
            for entry in entries:
                yield from structural_faults(entry, under)
        case Keyed(entries=pairs):
            yield from _repeated(pairs, under)
            for key, value in pairs:
                yield from structural_faults(value, key.text)
        case Text():
            pass


def _repeated(pairs: Sequence[tuple[Text, Node]], under: str) -> Iterator[Fault]:
    first: dict[str, Place] = {}
    for key, value in pairs:
        if isinstance(value, Refused) or key.text not in first:
            first.setdefault(key.text, key.place)
            continue
        what = f"choice {key.text}" if under == "choices" else f'the key "{key.text}"'
        right = "give each choice its own letter" if under == "choices" else "keep one of them"
        wrong = f"{what} stands twice, first on line {first[key.text].line}"
        yield Fault(place=key.place, wrong=wrong, right=right)
