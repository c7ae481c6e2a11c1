"""`times.json`: when each beat was told, as the run-through page notes it.

{"review": "garden-week", "beats": [{"id": "greeting", "start_ms": 0, "end_ms": 11800}]}
"""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

from narrate.errors import Fault, FaultsFound
from narrate.fitting.table import read_text
from narrate.items import json_nodes
from narrate.items.messages import nearest
from narrate.items.nodes import Keyed, Many, Node, Text, Unreadable
from narrate.lesson.lesson import Lesson, Span

_TOP = ("review", "beats")
_BEAT = ("id", "start_ms", "end_ms")
_SAVE = "give the file that the run-through page saves"


def read(path: Path, lesson: Lesson, review: str) -> tuple[dict[str, Span], tuple[str, ...]]:
    """The noted times of this lesson's beats in order, and notes of those it does not have.

    `review` is the name of the review. Raises FaultsFound with the place of each fault.
    """
    reader = _Reader()
    text = read_text(path)
    try:
        root = json_nodes.compose(text, str(path))
    except Unreadable as unreadable:
        raise FaultsFound(unreadable.faults) from None
    assert root is not None
    beats = reader.beats(root, review)
    reader.raise_faults()
    ids = {beat.id for beat in lesson.beats}
    strange = [name for name in beats if name not in ids]
    if beats and len(strange) == len(beats):
        reader.fault(root, "none of its beats is to be fitted", "note them with this review's page")
    reader.in_order(root, [beats[beat.id] for beat in lesson.beats if beat.id in beats])
    reader.raise_faults()
    notes = tuple(f"{name} is noted, but is not to be fitted" for name in strange)
    return {name: span for name, span in beats.items() if name in ids}, notes


class _Reader:
    """Reads nodes, and gathers faults."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []

    def fault(self, node: Node, wrong: str, right: str) -> None:
        self.faults.append(Fault(place=node.place, wrong=wrong, right=right))

    def raise_faults(self) -> None:
        if self.faults:
            raise FaultsFound(tuple(self.faults[:20]))

    def beats(self, root: Node, review: str) -> dict[str, Span]:
        if isinstance(root, Keyed) and root.get("beats") and root.get("total_ms"):
            self.fault(root, "this is a lesson as it was built, without times of hers", _SAVE)
        if self.faults or not self._keyed(root, _TOP):
            return {}
        assert isinstance(root, Keyed)
        named, rows = root.get("review"), root.get("beats")
        if isinstance(named, Text) and named.text != review:
            self.fault(named, f'these are the times of "{named.text}"', f'give those of "{review}"')
        if not isinstance(rows, Many) or not rows.entries:
            self.fault(rows or root, "it holds no times of beats", _SAVE)
            return {}
        found: dict[str, Span] = {}
        for row in rows.entries:
            if self._keyed(row, _BEAT):
                self._beat(row, found)
        return found

    def _keyed(self, node: Node, known: tuple[str, ...]) -> bool:
        """Whether a node has these keys and no others."""
        if not isinstance(node, Keyed):
            self.fault(node, "these are no times", _SAVE)
            return False
        names = [key.text for key, _ in node.entries]
        for key, _ in node.entries:
            if key.text not in known:
                near = nearest(key.text, known)
                right = f'did you mean "{near}"?' if near else f"known here are {', '.join(known)}"
                self.fault(key, f'unknown key "{key.text[:40]}"', right)
        missing = [name for name in known if name not in names]
        if missing:
            self.fault(node, f'"{missing[0]}" is missing', _SAVE)
        return not missing

    def _beat(self, row: Node, found: dict[str, Span]) -> None:
        assert isinstance(row, Keyed)
        name = row.get("id")
        start, end = (self._time(row.get(key)) for key in ("start_ms", "end_ms"))
        if not isinstance(name, Text) or start is None or end is None:
            return
        if end < start:
            self.fault(row, f"{name.text} ends before it starts", "let end_ms be the larger")
        elif name.text in found:
            self.fault(row, f"{name.text} stands twice", "keep one of them")
        else:
            found[name.text] = Span(start, end)

    def _time(self, node: Node | None) -> int | None:
        text = node.text if isinstance(node, Text) else ""
        if node is not None and not (text.isascii() and text.isdigit() and len(text) < 12):
            self.fault(node, f'"{text[:40]}" is no time', "write whole milliseconds, such as 83400")
            return None
        return int(text) if text else None

    def in_order(self, root: Node, spans: list[Span]) -> None:
        for before, after in pairwise(spans):
            if after.start < before.end:
                wrong = f"a beat starts at {after.start}, before the one before it ends"
                self.fault(root, wrong, "give the times of one run, in the order of the review")
                return
