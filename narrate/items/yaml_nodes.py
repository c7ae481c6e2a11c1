"""YAML to nodes, from the parser's events, so that what is not wanted never gets built.

Events keep scalars as written, whereas a loader would turn `12:30` into a number of seconds and
`no` into False (YAML 1.1, https://yaml.org/type/).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice
from typing import Any

import yaml

from narrate.errors import Fault, Place
from narrate.items.nodes import (
    MAX_DEPTH,
    MOST_ALIKE,
    TOO_DEEP,
    Keyed,
    Many,
    Node,
    Refused,
    Text,
    Unreadable,
    lead,
)
from narrate.items.texts import shorten

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the wheels of some systems lack C
_INDENTED_BY_TAB = re.compile(r"^( *)\t[ \t]*[^ \t\r\n]", re.MULTILINE)

_LINE_ENDS = re.compile("\r\n|\r|\n")
_KEY_AND_VALUE = re.compile(r"\s*(?:- +)?(?P<key>[A-Za-z]+:) +(?P<value>[^\s>|\"'{\[&*!].*)")

_COLON = "mapping values are not allowed"
_QUOTES = "put text that holds a colon, quotes or brackets on the next line after >-"
_PLAIN_WORDS = (
    (_COLON, "a colon followed by a space is not expected here", _QUOTES),
    ("found character that cannot start", "a value cannot start with this character", _QUOTES),
    ("unexpected end of stream", "a quotation mark is never closed", "close it, or use >- instead"),
    ("',' or '}'", "a { is not closed, or a comma is missing", "write {A: 1/2, B: 3/4}"),
    ("',' or ']'", "a [ is not closed, or a comma is missing", "write [numerator, denominator]"),
    ("did not find expected key", "this does not continue what stands above it", _QUOTES),
    ("'-' indicator", "this line is not part of the list above it", "line it up with the others"),
    ("unknown escape", "a backslash stands in double quotes", "use single quotes or >-"),
    ("block sequence entries", "a list cannot start here", "begin it on the next line"),
    ("comment or line break", "text follows > or | on the same line", "begin it on the next line"),
    ("<document start>", "this line is not indented like those above it", "line it up with them"),
)


def compose(text: str, file: str) -> Node | None:
    """The one document of a YAML text; None where there is none. Raises Unreadable."""
    if tabs := list(islice(_INDENTED_BY_TAB.finditer(text), MOST_ALIKE)):
        raise Unreadable(*(_tab_fault(text, tab, file) for tab in tabs))
    try:
        return _Composer(text, file).document()
    except yaml.YAMLError as error:
        raise Unreadable(_syntax_fault(error, file, text)) from None


def _tab_fault(text: str, match: re.Match[str], file: str) -> Fault:
    line = text.count("\n", 0, match.start()) + 1
    return Fault(
        place=Place(file=file, line=line, column=len(match[1]) + 1),
        wrong="a tab stands in the indentation",
        right="indent with spaces",
    )


def _syntax_fault(error: yaml.YAMLError, file: str, text: str) -> Fault:
    mark = getattr(error, "problem_mark", None)
    problem = str(getattr(error, "problem", None) or error).splitlines()[0]
    place = Place(file=file) if mark is None else _place(mark, file)
    for part, wrong, right in _PLAIN_WORDS:
        if part in problem:
            if part == _COLON:
                right = _two_lines(text, place) or right
            return Fault(place=place, wrong=wrong, right=right)
    return Fault(place=place, wrong=f"this is not YAML ({problem})", right=_QUOTES)


def _two_lines(text: str, place: Place) -> str:
    """How a line with a colon in its value is written on two; "" where it is no such line."""
    lines = _LINE_ENDS.split(text)
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    found = _KEY_AND_VALUE.match(line)
    if not found or place.column <= found.start("value") + 1:
        return ""
    key, value = found["key"], shorten(found["value"])
    return f"write two lines: `{key} >-`, and below it, further in, `{value}`"


def _place(mark: Any, file: str) -> Place:
    return Place(file=file, line=mark.line + 1, column=mark.column + 1)


class _Composer:
    """Builds nodes from events, one method for each kind of node."""

    def __init__(self, text: str, file: str) -> None:
        # YAML ends a line at a carriage return as well; marks count lines in its way.
        self._lines = _LINE_ENDS.split(text)
        self._file = file
        self._events: Iterator[Any] = yaml.parse(text, Loader=_LOADER)
        self._depth = 0

    def document(self) -> Node | None:
        root: Node | None = None
        for event in self._events:
            if isinstance(event, yaml.DocumentStartEvent):
                if root is not None:
                    raise self._unreadable(
                        event, "a second document starts here", "put each review in its own file"
                    )
                root = self._node(next(self._events))
        return root

    def _unreadable(self, event: Any, wrong: str, right: str) -> Unreadable:
        return Unreadable(Fault(place=self._at(event), wrong=wrong, right=right))

    def _at(self, event: Any) -> Place:
        return _place(event.start_mark, self._file)

    def _node(self, event: Any) -> Node:
        if isinstance(event, yaml.AliasEvent):
            return self._refused(event, f"*{event.anchor} refers to another place")
        node = self._content(event)
        if event.anchor is not None:
            return self._refused(event, f"&{event.anchor} names this place for reuse")
        if event.tag is not None:
            return self._refused(event, f"{event.tag} is a YAML tag")
        return node

    def _refused(self, event: Any, wrong: str) -> Refused:
        right = "write the value itself, in quotes where it starts with *, & or !"
        return Refused(place=self._at(event), wrong=wrong, right=right)

    def _content(self, event: Any) -> Node:
        if isinstance(event, yaml.ScalarEvent):
            return self._text(event)
        self._depth += 1
        if self._depth > MAX_DEPTH:
            raise self._unreadable(event, *TOO_DEEP)
        is_list = isinstance(event, yaml.SequenceStartEvent)
        node: Node = self._many(event) if is_list else self._keyed(event)
        self._depth -= 1
        return node

    def _text(self, event: Any) -> Text:
        mark = event.start_mark
        line = self._lines[mark.line] if mark.line < len(self._lines) else ""
        return Text(
            place=self._at(event), text=event.value, lead=lead(line, mark.column, event.value)
        )

    def _many(self, event: Any) -> Many:
        entries = []
        while not isinstance(entry := next(self._events), yaml.SequenceEndEvent):
            entries.append(self._node(entry))
        return Many(place=self._at(event), entries=tuple(entries))

    def _keyed(self, event: Any) -> Keyed:
        pairs: list[tuple[Text, Node]] = []
        while not isinstance(entry := next(self._events), yaml.MappingEndEvent):
            key, value = self._node(entry), self._node(next(self._events))
            if not isinstance(key, Text):
                value = self._refused(entry, "a key must be plain text")
                key = Text(place=value.place, text="")
            pairs.append((key, value))
        return Keyed(place=self._at(event), entries=tuple(pairs))
