"""What must be settled in a drafted review: what `check` would say of each question, as comments.

The draft is loaded and solved as `check` does it, so that the two never disagree.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from narrate.draft import END, draft_lines, one_line
from narrate.errors import Declined
from narrate.items.loading import load_text
from narrate.pipeline import solve_item


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """The text of a review file, how many items it has, and how many of them need settling."""

    text: str
    items: int
    to_settle: int


def draft(text: str, name: str) -> Draft:
    """The review file of a pasted text, named `name`; comments say what must be settled."""
    lines = draft_lines(text, name)
    plain = [line for line in lines if line != END]
    ends = list(_ends(lines))
    told: dict[int, list[str]] = {}
    for line, words in _to_settle("\n".join(plain) + "\n"):
        at = bisect_left(ends, line)
        if at < len(ends) and words not in (known := told.setdefault(at, [])):
            known.append(words)
    written = list(_with_comments(lines, told))
    return Draft(
        text="\n".join(written) + "\n", items=_items(written), to_settle=_open_items(written)
    )


def _ends(lines: Sequence[str]) -> Iterator[int]:
    """The number of the last line of each question, counted from 1 without the marks."""
    passed = 0
    for line in lines:
        if line == END:
            yield passed
        else:
            passed += 1


def _to_settle(text: str) -> Iterator[tuple[int, str]]:
    """The line of each question that needs settling, and what `check` says of it."""
    review, faults = load_text(text, Path("draft.yaml"))
    for fault in faults:
        if fault.item is not None:  # else it is the file's own
            yield fault.place.line, f"{fault.wrong}\n{fault.right}"
    for item in review.items if review else ():
        for outcome in solve_item(item):
            if outcome.fault:
                yield outcome.part.place.line, f"{outcome.fault.wrong}\n{outcome.fault.right}"
            if outcome.declined:
                yield outcome.part.place.line, _said(outcome.declined)


def _said(declined: Declined) -> str:
    return f"{declined.understood}\n{declined.add}"


def _with_comments(lines: Sequence[str], told: dict[int, list[str]]) -> Iterator[str]:
    """The lines with what is to settle behind each question, indented as it is."""
    question = 0
    indent = ""
    for line in lines:
        if line != END:
            indent = line[: len(line) - len(line.lstrip())] if _is_key(line) else indent
            yield line
            continue
        for words in told.get(question, ()):
            wrong, right = words.split("\n", 1)
            yield f"{indent}# to settle: {one_line(wrong)}"
            yield f"{indent}# {one_line(right)}"
        question += 1


def _is_key(line: str) -> bool:
    """Whether a line begins a key of a question (and no item, part or choice)."""
    return line.lstrip().startswith(("stem:", "choices:", "boxes:", "key:", "select:"))


def _items(lines: Sequence[str]) -> int:
    return sum(line.startswith("  - id:") for line in lines)


def _open_items(lines: Sequence[str]) -> int:
    """How many items have a comment of their own."""
    marked: list[bool] = []
    for line in lines:
        if line.startswith("  - id:"):
            marked.append(False)
        elif marked and (line.lstrip().startswith("#") or "  # a fraction?" in line):
            marked[-1] = True
    return sum(marked)
