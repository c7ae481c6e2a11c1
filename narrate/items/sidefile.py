"""Small files beside a review (edits, the teacher's voice): read as nodes, with their places."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from narrate.errors import Fault, FaultsFound, Place
from narrate.items import yaml_nodes
from narrate.items.nodes import Keyed, Node, Refused, Text, Unreadable
from narrate.items.texts import flaw, shorten, unwanted

EDITS = ".edits.yaml"
VOICE = "voice.yaml"
PLAN = "plan.yaml"
"""Which items were reviewed on which day, for those who were away."""

TIMES = "times.json"
"""What was noted while recording, as the run-through page saves it."""

MAX_BYTES = 1_000_000
LONGEST_TEXT = 2_000
LONGEST_WAIT = 120
SECONDS = f"write seconds from 0 to {LONGEST_WAIT}, such as 3 or 1.5"


def is_beside(path: Path) -> bool:
    """Whether a file goes with reviews by its name, and is none itself."""
    return path.name.endswith(EDITS) or path.name in (VOICE, PLAN, TIMES)


def read_keys(path: Path, right: str = "write a key, a colon, and its value") -> Keyed:
    """The keys of a YAML file, in order; none where it holds only remarks.

    Raises FaultsFound; `right` says what to write where it has no keys.
    """
    try:
        with path.open("rb") as file:
            data = file.read(MAX_BYTES + 1)
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        wrong = f"this cannot be opened ({reason})"
        place = Place(file=str(path))
        raise FaultsFound((Fault(place=place, wrong=wrong, right="check its name"),)) from None
    return keys_of(data, path, right)


def keys_of(data: bytes, path: Path, right: str = "") -> Keyed:
    """The keys that the bytes of a file hold, as `read_keys`. Raises FaultsFound."""
    try:
        root = yaml_nodes.compose(_text(data, path), str(path))
    except Unreadable as unreadable:
        raise FaultsFound(unreadable.faults) from None
    match root:
        case Keyed():
            return root
        case None | Text(text=""):
            return Keyed(place=Place(file=str(path)), entries=())
        case Refused(place=place, wrong=wrong, right=right):
            raise FaultsFound((Fault(place=place, wrong=wrong, right=right),))
        case _:
            raise FaultsFound((fault(root, "this is no set of keys", right),))


def _text(data: bytes, path: Path) -> str:
    """The file's text without its byte order mark. Raises Unreadable."""
    place = Place(file=str(path))
    try:
        text = data.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError:
        wrong, right = "this file is not UTF-8", "save it as UTF-8 (plain text)"
        raise Unreadable(Fault(place=place, wrong=wrong, right=right)) from None
    if len(data) > MAX_BYTES:
        wrong, right = "this file is larger than 1 MB", "shorten it"
        raise Unreadable(Fault(place=place, wrong=wrong, right=right))
    for found in unwanted(text, 1):
        line = text.count("\n", 0, found.offset) + 1
        column = found.offset - text.rfind("\n", 0, found.offset)
        at = Place(file=str(path), line=line, column=column)
        raise Unreadable(Fault(place=at, wrong=found.wrong, right=found.right))
    return text


def fault(node: Node, wrong: str, right: str) -> Fault:
    """A fault at a node."""
    return Fault(place=node.place, wrong=wrong, right=right)


def text_faults(name: str, node: Node, most: int = LONGEST_TEXT) -> Iterator[Fault]:
    """What is wrong with the text of a key; `most` is how many characters it may have."""
    if not isinstance(node, Text):
        if not isinstance(node, Refused):  # which has told its own reason
            yield fault(node, f'"{name}" is no text', "write it as one text")
    elif not node.text.strip():
        yield fault(node, f'"{name}" is empty', "fill it in, or leave the key out")
    elif len(node.text) > most:
        yield fault(node, f'"{name}" has {len(node.text):,} characters', f"use at most {most:,}")
    elif found := flaw(node.text):
        yield Fault(place=node.at(found.offset), wrong=found.wrong, right=found.right)


def seconds(node: Node | None) -> int | None:
    """A number of seconds in milliseconds; None where a node holds none."""
    return milliseconds(node.text) if isinstance(node, Text) else None


def milliseconds(text: str) -> int | None:
    """The seconds that a text gives, in milliseconds; None where it gives none."""
    if not re.fullmatch(r"\d{1,3}(?:\.\d{1,3})?", text.strip()):
        return None
    found = Fraction(text.strip())
    return int(found * 1000) if found <= LONGEST_WAIT else None


def shown(node: Node) -> str:
    """A value as a message names it."""
    return f'"{shorten(node.text)}"' if isinstance(node, Text) else "a list or a set of keys"
