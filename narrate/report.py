"""What is printed: a row for each part solved, and the length of what was built."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from narrate.errors import Declined, Fault
from narrate.exact.caption import caption, write
from narrate.exact.tree import Relation, Writing, has_blank, value
from narrate.items.item import Choice, Item, Part
from narrate.lesson import reasons
from narrate.lesson.brevity import Brevity
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.solved import SolvedPart
from narrate.lesson.timeline import chapter_spans
from narrate.lesson.wording import Words
from narrate.reading.words import plainly
from narrate.reading.words.parts import forms_of, words_of
from narrate.reading.words.understood import Marked, Understood
from narrate.solution.facts import Fact
from narrate.solution.steps import RuleOut, Step
from narrate.solution.task import as_decimal

_EMPTY: dict[str, Any] = {
    "answer": None,
    "unit": "",
    "key": None,
    "choices": {},
    "written": None,
    "steps": [],
}


def solved_row(solved: SolvedPart, words: Words) -> dict[str, Any]:
    """A solved part, as `narrate solve --json` prints it."""
    part, solution = solved.part, solved.solution
    goal = solved.reading.goal
    worded = goal.form in ("first line", "told", "expression", "tested") or _expressions(part)
    worded = worded or (goal.form == "judged" and part.select_all)
    return {
        "item": solved.item.id,
        "part": part.number,
        "status": "solved",
        "answer": None if worded else exact(solution.answer, solved.reading.decimals),
        "unit": part.unit,
        "key": _key(part, solution.key),
        "choices": {c.letter: _choice(c, solved, words) for c in part.choices},
        "written": None if worded else solution.written,
        "steps": [_step(step) for step in solution.steps],
        "message": "",
    }


def exact(amount: Fraction, decimals: bool) -> str:
    """A number as other programs read it: an integer, n/d, or a decimal where the item has them."""
    found = as_decimal(abs(amount)) if decimals and amount.denominator != 1 else None
    if found is None:
        return str(amount)
    return f"{'-' * (amount < 0)}{found.whole}.{found.places}"


def _expressions(part: Part) -> bool:
    return any(choice.tree is not None and reasons.is_work(choice.tree) for choice in part.choices)


def _key(part: Part, key: tuple[str, ...]) -> str | list[str] | None:
    if not part.choices:
        return None
    return list(key) if part.select_all else key[0]


def _choice(choice: Choice, solved: SolvedPart, words: Words) -> dict[str, Any]:
    found = [r for r in solved.solution.rule_outs if r.letter == choice.letter]
    rule_out = found[0] if found else None
    return {
        "value": _value(choice.tree, solved.reading.decimals),
        "ruled_out_at": rule_out.step if rule_out else None,
        "reason": _reason(rule_out, solved, words) if rule_out else None,
        "slip": rule_out.slip if rule_out else None,
    }


def _value(tree: Writing | None, decimals: bool) -> str | None:
    if tree is None or isinstance(tree, Relation) or has_blank(tree):
        return None
    return exact(value(tree), decimals)


def _reason(rule_out: RuleOut, solved: SolvedPart, words: Words) -> str:
    return caption(reasons.reason(words, solved.part, solved.solution, rule_out))


def _step(step: Step) -> dict[str, Any]:
    return {
        "move": step.move,
        "shows": _shows(step),
        "facts": [_fact(fact) for fact in step.facts],
    }


def _shows(step: Step) -> str:
    if step.line is not None:
        return write(step.line)
    return "; ".join(f"{m.of}: {', '.join(map(str, m.values))}" for m in step.lists)


def _fact(fact: Fact) -> dict[str, Any]:
    return {
        "name": fact.name,
        "args": [str(argument) for argument in fact.args],
        "rests_on": list(fact.rests_on),
    }


def declined_row(
    item: Item, part: Part, declined: Declined, *, by_hand: bool = False
) -> dict[str, Any]:
    """A part that was declined: what was understood and what to add, or that it is told by hand."""
    head = {"item": item.id, "part": part.number, "status": "declined"}
    why = (
        f"it is told by hand; nobody solved it: {declined.understood}" if by_hand else str(declined)
    )
    return head | _EMPTY | {"message": f"{part.place}: {item.id}: {why}"}


def read_row(item: Item, part: Part, found: Understood) -> dict[str, Any]:
    """A part as `narrate read --json` prints it: what was read, and where in its words."""
    head = {"item": item.id, "part": part.number, "status": "read"}
    return head | _found(item, found, words_of(item, part))


def _found(item: Item, found: Understood, text: str) -> dict[str, Any]:
    shared = len(item.stimulus.text) + 1 if item.stimulus and item.stimulus.text else 0
    lettered = found.expression is not None and has_blank(found.expression)
    return {
        "expression": write(found.expression) if found.expression is not None else None,
        "value": None if lettered else str(found.value),
        "unit": found.unit,
        "situation": found.situation,
        "unknown": found.unknown,
        "rounding": found.rounding,
        "form": forms_of(text),
        "quantities": [_mark(mark, shared) for mark in found.marks],
        "why": found.why,
        "said": plainly.sentence(found, text),
        "marked": plainly.marked(found, text),
        "message": "",
    }


def _mark(mark: Marked, shared: int) -> dict[str, Any]:
    """A phrase with its place in the stimulus's words or in the part's own."""
    own = mark.start >= shared
    at = shared if own else 0
    place = {"source": "ask" if own else "stimulus", "start": mark.start - at, "end": mark.end - at}
    return {"text": mark.text, "role": mark.role, "of": mark.of, **place}


def fault_row(fault: Fault, *, part: int | None) -> dict[str, Any]:
    """A fault of an item, or of a whole file (its `item` is null)."""
    head = {"item": fault.item, "part": part, "status": "fault"}
    return head | _EMPTY | {"message": str(fault)}


def times(lesson: Lesson, timeline: Timeline) -> Iterator[str]:
    """The length of each part and of the review, a line each."""
    for chapter, span in chapter_spans(lesson, timeline):
        yield f"{lesson.review}: {chapter.title}: {round(span.length / 1000)} s"
    minutes, seconds = divmod(round(timeline.total_ms / 1000), 60)
    yield f"{lesson.review}: {minutes} min {seconds} s in all"


def not_told(lesson: Lesson, brevity: Brevity) -> Iterator[str]:
    """What a telling does without, a line a part; and by how much it is still too long."""
    if brevity.in_short_words:
        yield f"{lesson.review}: told in short words"
    parts = lesson.chapters[1:-1]
    for at, names in sorted(brevity.left_out.items()):
        yield f"{lesson.review}: {parts[at].title}: left out: {', '.join(names)}"
    if brevity.too_long_ms:
        over = f"{_time(brevity.too_long_ms)} longer than wished"
        if brevity.detail == "brief":
            over += f", and {_time(brevity.least_ms)} is the shortest with every reason said"
        less = "" if brevity.detail == "lines" else "; --detail lines, skip: or --only is shorter"
        yield f"{lesson.review}: {over}{less}"


def _time(ms: int) -> str:
    """Minutes and seconds, the last one begun counted in."""
    minutes, seconds = divmod(-(-ms // 1000), 60)
    return f"{minutes} min {seconds} s"
