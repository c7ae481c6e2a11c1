"""What pydantic finds, in a teacher's words and at the place in the file."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Iterator

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from narrate.errors import Fault
from narrate.items.days import DAY_IS
from narrate.items.nodes import Keyed, Many, Node, Refused, Text, find
from narrate.items.schema import (
    HeaderSource,
    ItemSource,
    PartSource,
    StimulusSource,
    ToldSource,
    keys,
)
from narrate.items.texts import shorten

Path = tuple[int | str, ...]

_RIGHT = {
    "grade": "write a whole number from 3 to 8",
    "language": "write en, the one language there is",
    "wholes": "write a whole number from 1 to 12",
    "parts": "write a list of questions, each starting with - ask:",
    "items": "write a list of items, each starting with - id:",
    "strip": "write strip: {wholes: 3, parts: 10}",
    "diagram": "write diagram: {strip: {wholes: 3, parts: 10}}",
    "stimulus": "write text:, diagram: or image: below it",
    "select": "write all, or leave the key out where one choice is right",
    "simplest": "write true or false",
    "skip": "write true or false",
    "hold-until": DAY_IS,
    "told": "write a list of moments, each with say:, show: or wait:",
    "counts": "write how many chose each choice, such as {A: 12, B: 3}",
    "way": "write multiples, product, larger, improper, mixed or reciprocal",
    "choices": "write {A: 1/2, B: 3/4}, or one choice on each line",
    "boxes": "write [number], [numerator, denominator] or [whole, numerator, denominator]",
    "key": "write the letter of a choice",
    "id": "add id: with a short name such as rain-barrel",
    "ask": "add ask: with the words of the question",
}
_UNKNOWN = "unexpected_keyword_argument"
_STRIP_PARTS = "write a whole number from 1 to 100"
_ELSEWHERE = {
    "stem": "ask",
    "ask": "stem",
    "question": "stem",
    "answer": "key",
    "options": "choices",
    "title": "review",
}
"""Keys that are not spelled wrongly but belong elsewhere or are called otherwise here."""


def item_faults(error: ValidationError, item: Node) -> Iterator[Fault]:
    """The faults of one item's keys."""
    return _faults(error, item, ItemSource)


def review_faults(error: ValidationError, review: Node) -> Iterator[Fault]:
    """The faults of the keys of a review itself."""
    return _faults(error, review, HeaderSource)


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known key that an unknown one most likely stands for."""
    choices = tuple(known)
    if (other := _ELSEWHERE.get(name.lower())) in choices:
        return other
    if name.lower() == "question" and "ask" in choices:
        return "ask"
    near = difflib.get_close_matches(name.lower(), choices, n=3)
    return max(near, key=lambda key: _alike(name.lower(), key), default=None)


def _alike(name: str, key: str) -> tuple[bool, bool]:
    """Whether a key has a name's letters in another order, and whether its first letter.

    A slip of the fingers keeps the first letter most often: `kay` is `key`, not `way`.
    """
    return sorted(name) == sorted(key), name[:1] == key[:1]


def _faults(error: ValidationError, root: Node, top: type) -> Iterator[Fault]:
    details = error.errors(include_url=False)
    misspelt = {_meant(detail["loc"], top) for detail in details if detail["type"] == _UNKNOWN}
    for detail in details:
        path: Path = detail["loc"]
        node = find(root, path)
        told = (
            isinstance(node, Refused)  # by its own reason
            or (detail["type"] == "missing" and path in misspelt)
            or (path[-2:-1] == ("choices",) and not re.fullmatch("[A-Z]", str(path[-1])))
        )
        if not told:
            yield _fault(detail, root, node, top)


def _meant(path: Path, top: type) -> Path:
    return (*path[:-1], nearest(str(path[-1]), _known(path, top)) or "")


def _fault(detail: ErrorDetails, root: Node, node: Node, top: type) -> Fault:
    path: Path = detail["loc"]
    match detail["type"]:
        case "unexpected_keyword_argument":
            return _unknown(path, root, top)
        case "missing":
            wrong = f'the {_owner(path, top)} has no "{path[-1]}"'
            right = _STRIP_PARTS if path[-2:] == ("strip", "parts") else _RIGHT[str(path[-1])]
            return Fault(place=node.place, wrong=wrong, right=right)
        case "flaw":
            return _flaw(detail, node)
        case "dataclass_type":
            return _not_keyed(path, node)
        case _:
            return _misfit(path, node)


def _flaw(detail: ErrorDetails, node: Node) -> Fault:
    found = detail["ctx"]
    place = node.at(found["offset"]) if isinstance(node, Text) else node.place
    wrong = found["wrong"]
    if wrong.startswith("this "):
        wrong = _named(detail["loc"]) + wrong.removeprefix("this")
    return Fault(place=place, wrong=wrong, right=found["right"])


def _misfit(path: Path, node: Node) -> Fault:
    field = next((str(step) for step in reversed(path) if isinstance(step, str)), "items")
    right = "write it as one text"
    if path[-2:-1] == ("choices",) and isinstance(path[-1], str):
        right = "write the choice as one text"
    elif path[-2:-1] == ("counts",):
        right = _RIGHT["counts"]
    elif path[-2:] == ("strip", "parts"):
        right = _STRIP_PARTS
    elif field == "parts" and isinstance(node, Many):
        return Fault(
            place=node.place,
            wrong=f"an item of {len(node.entries)} parts",
            right="use at most 26, one for each letter",
        )
    elif field in _RIGHT and field not in ("id", "ask"):
        right = _RIGHT[field]
    return Fault(place=node.place, wrong=f"{_named(path)} is {_shown(node)}", right=right)


def _named(path: Path) -> str:
    if path[-2:-1] == ("choices",):
        return f"choice {path[-1]}"
    return next((f'"{step}"' for step in reversed(path) if isinstance(step, str)), "this")


def _shown(node: Node) -> str:
    match node:
        case Text(text=""):
            return "empty"
        case Text(text=text):
            return f'"{shorten(text)}"'
        case Many():
            return "a list"
        case _:
            return "a set of keys"


def _not_keyed(path: Path, node: Node) -> Fault:
    if path and isinstance(path[-1], str):
        return _misfit(path, node)
    what, first = ("a part", "ask") if path else ("an item", "id")
    wrong = f"{what} is {_shown(node)} instead of a set of keys"
    right = f"start it with - {first}: and write its other keys below"
    return Fault(place=node.place, wrong=wrong, right=right)


def _owner(path: Path, top: type) -> str:
    if path[-1] == "ask":
        return "part"
    if len(path) == 1:
        return "review" if top is HeaderSource else "item"
    return next((str(step) for step in reversed(path[:-1]) if isinstance(step, str)), "item")


def _known(path: Path, top: type) -> tuple[str, ...]:
    match path[:-1]:
        case ():
            return keys(top)
        case (*_, "told", int()):
            return keys(ToldSource)
        case ("stimulus",):
            return keys(StimulusSource)
        case (*_, "diagram"):
            return ("strip",)
        case (*_, "strip"):
            return ("wholes", "parts")
        case _:
            return keys(PartSource)


def _unknown(path: Path, root: Node, top: type) -> Fault:
    name = str(path[-1])
    known = _known(path, top)
    near = nearest(name, known)
    right = f'did you mean "{near}"?' if near else "known here are " + ", ".join(known)
    owner = find(root, path[:-1])
    if name.lower() == "answer" and isinstance(owner, Keyed) and owner.get("choices") is None:
        right = "leave it out: the answer is worked out, and only choices have a key"
    key = owner.key(name) if isinstance(owner, Keyed) else None
    place = key.place if key else owner.place
    return Fault(place=place, wrong=f'unknown key "{shorten(name)}"', right=right)
