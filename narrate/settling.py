"""What must be settled in a drafted review: what `check` would say of each question, as comments.

The draft is loaded and solved as `check` does it, so that the two never disagree.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from narrate.draft import END, KEY_SAID, NOT_TAKEN, ON_PAPER, draft_lines, one_line
from narrate.errors import Declined
from narrate.items.loading import load_text
from narrate.pipeline import PartOutcome, solve_item
from narrate.reading.told_before import ToldBefore
from narrate.reading.words.choices import held_by


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """The text of a review file, how many items it has, and how many of them need settling."""

    text: str
    items: int
    to_settle: int


def draft(text: str, name: str) -> Draft:
    """The review file of a pasted text, named `name`; comments say what must be settled."""
    lines = draft_lines(text, name)
    outcomes, faults = _solved(lines)
    lines, outcomes, faults = _with_shared(text, name, (lines, outcomes, faults))
    boxed = _with_boxes(lines, outcomes)
    if boxed != lines:
        outcomes, faults = _solved(lines := boxed)
    lines = _with_keys(lines, outcomes)
    ends = list(_ends(lines))
    told: dict[int, list[str]] = {}
    for line, words in (*faults, *_to_settle(outcomes)):
        at = bisect_left(ends, line)
        if at < len(ends) and words not in (known := told.setdefault(at, [])):
            known.append(words)
    written = list(_with_comments(lines, told))
    return Draft(
        text="\n".join(written) + "\n", items=_items(written), to_settle=_open_items(written)
    )


_Solved = tuple[list[PartOutcome], list[tuple[int, str]]]


def _with_shared(
    text: str, name: str, made: tuple[list[str], *_Solved]
) -> tuple[list[str], *_Solved]:
    """The draft with what a first part tells shared by all, where just that lets a later be read.

    It is left as it was pasted where another part would then be read otherwise, or no more.
    """
    before = made[1]
    wanted = {
        o.item.id for o in before if isinstance(o.declined, ToldBefore) and o.declined.settles
    }
    if not wanted:
        return made
    after = _solved(draft_lines(text, name, wanted))[0]
    kept = {name for name in wanted if _goes_on(name, before, after)}
    lines = draft_lines(text, name, kept)
    return (lines, *_solved(lines))


def _goes_on(name: str, before: Sequence[PartOutcome], after: Sequence[PartOutcome]) -> bool:
    """Whether every part of an item that was read is read as before, and others are now."""
    was, now = (
        {
            o.part.number: o.solved.reading.goal.answer
            for o in found
            if o.item.id == name and o.solved
        }
        for found in (before, after)
    )
    return len(now) > len(was) and all(now.get(number) == answer for number, answer in was.items())


def _solved(lines: Sequence[str]) -> _Solved:
    """The parts of a drafted review as they are solved, and the faults of its items with lines."""
    text = "\n".join(line for line in lines if line != END) + "\n"
    review, found = load_text(text, Path("draft.yaml"))
    faults = [(f.place.line, f"{f.wrong}\n{f.right}") for f in found if f.item is not None]
    items = review.items if review else ()  # faults of no item are the file's own
    return [outcome for item in items for outcome in solve_item(item)], faults


def _with_boxes(lines: Sequence[str], outcomes: Sequence[PartOutcome]) -> list[str]:
    """The lines with boxes for a fraction or a mixed number where that is worked out."""
    made = list(lines)
    places = [at for at, line in enumerate(lines) if line != END]
    for outcome in outcomes:
        answer = _answer(outcome)
        if answer is None or answer.denominator == 1 or outcome.part.boxes[:1] != ("number",):
            continue
        at = places[outcome.part.at("boxes").line - 1]
        mixed = answer > 1 and not _IMPROPER.search(outcome.part.ask)
        unit = re.search(r"\[number(, .*)\]", made[at])
        boxes = f"[{'whole, ' if mixed else ''}numerator, denominator{unit[1] if unit else ''}]"
        made[at] = f"{made[at].split('[number', 1)[0]}{boxes}"
    return made


_IMPROPER = re.compile(r"\bimproper\b|\bas (?:a|one) fraction\b", re.IGNORECASE)


def _answer(outcome: PartOutcome) -> Fraction | None:
    """What was worked out, where it is written as a whole number, a fraction or a mixed number."""
    if outcome.solved is None:
        return None
    read = outcome.solved.reading
    return None if read.decimals or read.money else read.goal.answer


def _with_keys(lines: Sequence[str], outcomes: Sequence[PartOutcome]) -> list[str]:
    """The lines without keys that are just what is worked out; others are told to settle."""
    ends = list(_ends(lines))
    worked = {bisect_left(ends, o.part.place.line): o for o in outcomes if o.solved is not None}
    made: list[str] = []
    question = 0
    for line in lines:
        question += line == END
        found = worked.get(question)
        key = line.strip().removeprefix(KEY_SAID).removesuffix("”")
        if found is None or found.solved is None or key == line.strip():
            made.append(line)
        elif not held_by(found.solved.solution.answer, [key]):
            indent = line[: len(line) - len(line.lstrip())]
            given = f"{'$' * found.solved.reading.money}{found.solved.solution.written}"
            made.append(
                f"{indent}# to settle: the text's key is “{key}”, but {given} is worked out"
            )
            made.append(f"{indent}# look which is right: the words of the item, or the key")
    return made


def _ends(lines: Sequence[str]) -> Iterator[int]:
    """The number of the last line of each question, counted from 1 without the marks."""
    passed = 0
    for line in lines:
        if line == END:
            yield passed
        else:
            passed += 1


def _to_settle(outcomes: Sequence[PartOutcome]) -> Iterator[tuple[int, str]]:
    """The line of each question that needs settling, and what `check` says of it."""
    for outcome in outcomes:
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
        elif marked and (_is_to_settle(line) or "  # a fraction?" in line):
            marked[-1] = True
    return sum(marked)


def _is_to_settle(line: str) -> bool:
    """Whether a line is a comment of an item, and tells more than what stood on the paper."""
    plain = line.lstrip()
    return plain.startswith("#") and not plain.startswith((ON_PAPER, NOT_TAKEN))
