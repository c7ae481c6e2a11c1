"""Files to reviews, with every fault of every file at its place.

A faulty item is left out and the good ones stay. A file that cannot be read at all, or whose own
keys (title, grade, language) or name are faulty, gives faults only.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from pydantic import ValidationError

from narrate.errors import Fault, Place
from narrate.items import json_nodes, yaml_nodes
from narrate.items.building import build_item
from narrate.items.item import Item, Review
from narrate.items.messages import item_faults, review_faults
from narrate.items.nodes import (
    MOST_ALIKE,
    Keyed,
    Many,
    Node,
    Refused,
    Text,
    Unreadable,
    plain,
    structural_faults,
)
from narrate.items.rules import item_rules
from narrate.items.schema import HEADER, ITEM, HeaderSource, keys
from narrate.items.sidefile import is_beside
from narrate.items.texts import name_flaw, shorten, unwanted

SUFFIXES = (".json", ".jsonl", ".yaml", ".yml")
MAX_BYTES = 5_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """The reviews of some files, good items only, and the faults: file by file, by place."""

    reviews: tuple[Review, ...]
    faults: tuple[Fault, ...]


def load(paths: Sequence[Path]) -> Loaded:
    """The reviews of files, and of folders: their files of the known kinds, sorted, not deeper.

    Never raises for what a file holds: everything wrong is a fault.
    """
    reviews: dict[str, Review] = {}
    files: dict[str, Path] = {}
    faults: list[Fault] = []
    for found in _files(paths):
        if isinstance(found, Fault):
            faults.append(found)
            continue
        review, wrong = _read(found)
        if review is not None and review.id.lower() in reviews:
            wrong.append(_clash(found, files[review.id.lower()]))
        elif review is not None:
            reviews[review.id.lower()], files[review.id.lower()] = review, found
        faults += sorted(set(wrong), key=lambda fault: (fault.place, fault.wrong))
    return Loaded(reviews=tuple(reviews.values()), faults=tuple(faults))


def _clash(path: Path, other: Path) -> Fault:
    return Fault(
        place=Place(file=str(path)),
        wrong=f'another review, {other}, is called "{path.stem}" as well',
        right="give each file its own name: it names the output folder",
    )


# -- which files


def _files(paths: Iterable[Path]) -> Iterator[Path | Fault]:
    seen: set[Path] = set()
    for path in paths:
        for found in _at(path):
            if isinstance(found, Fault):
                yield found
            elif (real := found.resolve()) not in seen:
                seen.add(real)
                yield found


def _at(path: Path) -> Iterator[Path | Fault]:
    kinds = ".yaml, .yml, .json or .jsonl"
    try:
        if path.is_dir():
            inside = sorted(filter(_is_wanted, path.iterdir()))
            yield from inside or (_whole(path, "this folder holds no items", f"add {kinds} files"),)
        elif not path.exists():
            yield _whole(path, "there is no such file or folder", "check its name")
        elif is_beside(path):
            yield _whole(path, "this file belongs to a review", "give the review itself")
        elif path.suffix.lower() not in SUFFIXES or not path.is_file():
            yield _whole(path, "this kind of file is not read", f"give {kinds}")
        else:
            yield path
    except (OSError, ValueError) as error:
        yield _unopened(path, error)


def _is_wanted(path: Path) -> bool:
    hidden = path.name.startswith(".")  # what editors and other systems leave beside a file
    beside = is_beside(path)
    return path.suffix.lower() in SUFFIXES and not hidden and not beside and path.is_file()


def _whole(path: Path, wrong: str, right: str) -> Fault:
    return Fault(place=Place(file=str(path)), wrong=wrong, right=right)


def _unopened(path: Path, error: Exception) -> Fault:
    reason = getattr(error, "strerror", None) or "its name cannot be used"
    return _whole(path, f"this cannot be opened ({reason.lower()})", "check its name and rights")


# -- one file


def _read(path: Path) -> tuple[Review | None, list[Fault]]:
    """One file's review, None where none can be made, and its faults."""
    faults: list[Fault] = []
    if found := name_flaw(path.stem, "the file name"):
        faults.append(_whole(path, found.wrong, found.right))
    named = not faults
    try:
        text = _text(path)
        root = _rows(text, path, faults) if _is_jsonl(path) else _document(text, path)
    except Unreadable as unreadable:
        return None, [*faults, *unreadable.faults]
    review = _review(root, path.stem, faults)
    return (review if named else None), faults


def load_text(text: str, path: Path) -> tuple[Review | None, tuple[Fault, ...]]:
    """The review of a text that would stand in the YAML file `path`, and its faults."""
    faults: list[Fault] = []
    try:
        root = _document(text, path)
    except Unreadable as unreadable:
        return None, unreadable.faults
    return _review(root, path.stem, faults), tuple(faults)


def _is_jsonl(path: Path) -> bool:
    return path.suffix.lower() == ".jsonl"


def _text(path: Path) -> str:
    """The file's text without its byte order mark. Raises Unreadable."""
    try:
        with path.open("rb") as file:
            data = file.read(MAX_BYTES + 1)
    except OSError as error:
        raise Unreadable(_unopened(path, error)) from None
    if len(data) > MAX_BYTES:
        raise Unreadable(_whole(path, "this file is larger than 5 MB", "split it into reviews"))
    try:
        text = data.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        raise Unreadable(_not_utf8(path, data, error.start)) from None
    if not text.strip():
        raise Unreadable(_empty(path))
    return text


def _empty(path: Path) -> Fault:
    return _whole(path, "this file is empty", "narrate starter FILE writes one to begin with")


def _not_utf8(path: Path, data: bytes, at: int) -> Fault:
    before = data[:at]
    column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8")) + 1
    return Fault(
        place=Place(file=str(path), line=before.count(b"\n") + 1, column=column),
        wrong="this file is not UTF-8",
        right="save it as UTF-8 (plain text)",
    )


def _document(text: str, path: Path) -> Keyed:
    """The keys of a YAML or JSON file. Raises Unreadable."""
    file = str(path)
    if path.suffix.lower() == ".json":
        root = json_nodes.compose(text, file)
    else:
        _refuse_unwanted(text, file)
        root = yaml_nodes.compose(text, file)
    if root is None or (isinstance(root, Text) and not root.text):
        raise Unreadable(_empty(path))
    if isinstance(root, Refused):
        raise Unreadable(Fault(place=root.place, wrong=root.wrong, right=root.right))
    if not isinstance(root, Keyed):
        wrong = "this file does not start with the keys of a review"
        right = "write review: and items: at its top, the items below"
        raise Unreadable(Fault(place=root.place, wrong=wrong, right=right))
    return root


def _refuse_unwanted(text: str, file: str) -> None:
    """YAML allows no such characters, so the parser would stop at the first. Raises Unreadable."""
    faults = []
    for found in unwanted(text, MOST_ALIKE):
        line = text.count("\n", 0, found.offset) + 1
        column = found.offset - text.rfind("\n", 0, found.offset)
        place = Place(file=file, line=line, column=column)
        faults.append(Fault(place=place, wrong=found.wrong, right=found.right))
    if faults:
        raise Unreadable(*faults)


def _rows(text: str, path: Path, faults: list[Fault]) -> Keyed:
    """The items of a `.jsonl` file, one a line, as the `items` of a review without other keys."""
    place = Place(file=str(path))
    rows: list[Node] = []
    for number, line in enumerate(text.split("\n"), start=1):
        try:
            row = json_nodes.compose(line, str(path), number)
        except Unreadable as unreadable:
            faults += unreadable.faults
            row = Refused(place=unreadable.faults[0].place, wrong="", right="")
        if row is not None:
            rows.append(row)
    key = Text(place=place, text="items")
    return Keyed(place=place, entries=((key, Many(place=place, entries=tuple(rows))),))


# -- one review


def _review(root: Keyed, stem: str, faults: list[Fault]) -> Review | None:
    """The review of a file's keys; None where its own keys are faulty or no item is good."""
    header = _header(root, faults)
    grade = header.grade if header else 5
    items = tuple(_items(root.get("items"), grade, faults))
    if header is None or not items:
        return None
    return Review(
        id=stem,
        title=header.review or stem.replace("-", " ").replace("_", " ").capitalize(),
        grade=grade,
        language=header.language,
        items=items,
    )


def _header(root: Keyed, faults: list[Fault]) -> HeaderSource | None:
    """The review's own keys. Unknown ones change nothing, so that the items can be built."""
    bare = _without_items(root)
    faults += structural_faults(bare)
    try:
        return HEADER.validate_python(plain(bare))
    except ValidationError as error:
        wrong = list(review_faults(error, bare))
        faults += wrong
    known = tuple(entry for entry in bare.entries if entry[0].text in keys(HeaderSource))
    try:
        return HEADER.validate_python(plain(Keyed(place=bare.place, entries=known)))
    except ValidationError:
        return None


def _without_items(root: Keyed) -> Keyed:
    """The root with an empty list of items where it has one: they are checked one by one."""
    return Keyed(
        place=root.place,
        entries=tuple(
            (key, Many(place=node.place, entries=()))
            if key.text == "items" and isinstance(node, Many)
            else (key, node)
            for key, node in root.entries
        ),
    )


def _items(listed: Node | None, grade: int, faults: list[Fault]) -> Iterator[Item]:
    """The good items of a list; the faults of the others are added to `faults`."""
    if not isinstance(listed, Many):
        return  # told with the review's own keys
    if not listed.entries:
        faults.append(
            Fault(place=listed.place, wrong="there are no items", right="write - id: below items:")
        )
    taken: dict[str, tuple[str, Place]] = {}
    for position, node in enumerate(listed.entries, start=1):
        wrong = [*_item_faults(node), *_taken(node, taken)]
        name = _id(node)
        faults += (dataclasses.replace(fault, item=name) for fault in wrong)
        if not wrong and isinstance(node, Keyed):
            source = ITEM.validate_python(plain(node))
            yield build_item(source, node, position=position, grade=grade)


def _item_faults(node: Node) -> Iterator[Fault]:
    if isinstance(node, Refused):
        if node.wrong:  # a line that could not be read has told its fault
            yield from structural_faults(node)
        return
    yield from structural_faults(node)
    try:
        ITEM.validate_python(plain(node))
    except ValidationError as error:
        yield from item_faults(error, node)
    if isinstance(node, Keyed):
        yield from item_rules(node)


def _id(node: Node) -> str | None:
    given = node.get("id") if isinstance(node, Keyed) else None
    return given.text if isinstance(given, Text) and given.text else None


def _free(name: str, taken: Container[str]) -> str:
    """An id like `name` that no item has yet."""
    stem = re.sub("[^A-Za-z0-9_-]", "", name)[:60] or "item"
    return next(new for n in count(2) if (new := f"{stem}-{n}").lower() not in taken)


def _taken(node: Node, taken: dict[str, tuple[str, Place]]) -> Iterator[Fault]:
    """The fault of an id that an earlier item has; ids that differ by case share a file name."""
    name = _id(node)
    given = node.get("id") if isinstance(node, Keyed) else None
    if name is None or given is None:
        return
    other, place = taken.setdefault(name.lower(), (name, given.place))
    if place != given.place:
        as_written = "" if other == name else f', as "{shorten(other)}"'
        new = f'give one of them an id of its own, such as "{_free(name, taken)}"'
        yield Fault(
            place=given.place,
            wrong=f'the id "{shorten(name)}" is taken by the item on line {place.line}{as_written}',
            right=f"{new}; capitals alone do not tell files apart" if as_written else new,
        )
