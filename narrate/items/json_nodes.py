"""JSON to nodes with places, which the json module does not keep.

Strings are read by the json module; the rest of RFC 8259's grammar is small. Numbers, true and
false stay text as written; an entry whose value is null counts as absent.
"""

from __future__ import annotations

import json
import re
from bisect import bisect_right

from narrate.errors import Fault, Place
from narrate.items.nodes import MAX_DEPTH, TOO_DEEP, Keyed, Many, Node, Text, Unreadable, lead

_SPACE = re.compile(r"[ \t\r\n]*")
_LITERAL = re.compile(r"-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null")
_STRINGS = json.JSONDecoder()


def compose(text: str, file: str, line: int = 1) -> Node | None:
    """The value of a JSON text that starts on `line`; None where it is blank. Raises Unreadable."""
    if not text.strip(" \t\r\n"):
        return None
    return _Reader(text, file, line).document()


class _Reader:
    """A recursive descent over the text; `_at` is the index of the next character."""

    def __init__(self, text: str, file: str, line: int) -> None:
        self._text = text
        self._file = file
        self._line = line
        self._starts = [0, *(match.end() for match in re.finditer("\n", text))]
        self._at = 0
        self._depth = 0

    def document(self) -> Node:
        node = self._node()
        if self._peek():
            raise self._unreadable("text stands after the end", "remove it")
        return node

    def _place(self, at: int) -> Place:
        row = bisect_right(self._starts, at) - 1
        return Place(file=self._file, line=self._line + row, column=at - self._starts[row] + 1)

    def _unreadable(self, wrong: str, right: str) -> Unreadable:
        return Unreadable(Fault(place=self._place(self._at), wrong=wrong, right=right))

    def _peek(self) -> str:
        match = _SPACE.match(self._text, self._at)
        self._at = match.end() if match else self._at
        return self._text[self._at : self._at + 1]

    def _node(self) -> Node:
        match self._peek():
            case "{" | "[" as bracket:
                self._depth += 1
                if self._depth > MAX_DEPTH:
                    raise self._unreadable(*TOO_DEEP)
                node: Node = self._keyed() if bracket == "{" else self._many()
                self._depth -= 1
                return node
            case '"':
                return self._string()
            case _:
                return self._literal()

    def _string(self) -> Text:
        start = self._at
        try:
            text, self._at = _STRINGS.raw_decode(self._text, start)
        except json.JSONDecodeError as error:
            self._at = error.pos
            wrong = f"this is not JSON ({error.msg.removesuffix(' at').lower()})"
            raise self._unreadable(
                wrong, "close each string on its line; write \\n and \\\\"
            ) from None
        return Text(place=self._place(start), text=text, lead=lead(self._text, start, text))

    def _literal(self) -> Text:
        match = _LITERAL.match(self._text, self._at)
        if match is None:
            raise self._unreadable(
                "this is not JSON (a value is missing here)", 'write text in quotes, as in "3/4"'
            )
        place = self._place(self._at)
        self._at = match.end()
        return Text(place=place, text=match[0], lead=0)

    def _more(self, closing: str, first: bool) -> bool:
        """Whether another entry follows; steps over the comma or the closing bracket."""
        following = self._peek()
        if following == closing or (following == "," and not first):
            self._at += 1
            return following == ","
        if first:
            return True
        raise self._unreadable(
            "this is not JSON (a comma is missing here)", f'write "," or "{closing}"'
        )

    def _many(self) -> Many:
        place = self._place(self._at)
        self._at += 1
        entries: list[Node] = []
        while self._more("]", first=not entries):
            entries.append(self._node())
        return Many(place=place, entries=tuple(entries))

    def _keyed(self) -> Keyed:
        place = self._place(self._at)
        self._at += 1
        pairs: list[tuple[Text, Node]] = []
        while self._more("}", first=not pairs):
            pairs.append(self._pair())
        return Keyed(place=place, entries=tuple(pair for pair in pairs if not _is_null(pair[1])))

    def _pair(self) -> tuple[Text, Node]:
        if self._peek() != '"':
            raise self._unreadable(
                "this is not JSON (a key is missing here)", 'write keys in quotes, as in "stem"'
            )
        key = self._string()
        if self._peek() != ":":
            raise self._unreadable("this is not JSON (a colon is missing here)", 'write ":"')
        self._at += 1
        return key, self._node()


def _is_null(node: Node) -> bool:
    return isinstance(node, Text) and node.text == "null" and node.lead == 0
