"""Phrases of an item that tell: amounts, how they are related, what is asked, the form wanted."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from operator import itemgetter

from narrate.exact import prose
from narrate.exact.tree import Expr, terms
from narrate.items.item import Item, Part
from narrate.reading.amounts_told import amounts
from narrate.reading.reading import Role, Situation, Source, Telling, Unknown
from narrate.reading.relations_told import relations
from narrate.reading.situation import find_noun
from narrate.reading.words.understood import Marked

SIMPLEST = (
    r"\b(?:in )?(?:simplest|lowest|simplified|reduced)(?: possible)? (?:form|terms?)\b"
    r"|\bsimplify\b|(?:(?:^|[.?!]) *|\band )\breduce\b"
)
MIXED = r"\b(?:as|a) mixed number\b"
IMPROPER = r"\bas an improper fraction\b"
DECIMAL = r"\bas a decimal\b"
_CONDITION = rf"{SIMPLEST}|{MIXED}|{IMPROPER}|\bselect all\b"


def all_words(item: Item, part: Part) -> str:
    """The shared text and what the part asks."""
    return f"{stimulus_of(item)} {part.ask}".strip()


def stimulus_of(item: Item) -> str:
    """The text that parts share, "" where there is none."""
    return item.stimulus.text if item.stimulus else ""


def question_of(ask: str) -> str:
    """The last sentence that asks; the last sentence where none does."""
    sentences = prose.sentences(ask)
    asking = [sentence for sentence in sentences if sentence.rstrip().endswith("?")]
    return (asking or sentences or ("",))[-1]


def signs_of(expression: Expr) -> str:
    """Whether a sum only adds ("+"), only takes away after its first amount ("−"), or both."""
    signs = {sign for sign, _ in terms(expression)[1:]}
    if signs == {1, -1} or terms(expression)[0][0] < 0:
        return "±"
    return "−" if -1 in signs else "+"


def unknown_of(item: Item, part: Part) -> Unknown:
    """The question, and what it asks for."""
    question = question_of(part.ask)
    return Unknown(question=question, noun=find_noun(question, all_words(item, part)))


def tellings(item: Item, part: Part, expression: Expr, situation: Situation) -> Iterator[Telling]:
    """Every telling phrase of a part, by its role."""
    texts: tuple[tuple[Source, str], ...] = (("stimulus", stimulus_of(item)), ("ask", part.ask))
    if situation != "bare":
        for source, text in texts:
            for start, end in amounts(text, expression):
                yield _telling(source, text, start, end, "amount")
        yield from _relationship(texts, situation, question_of(part.ask))
    yield from _conditions(texts)
    start = part.ask.rfind(question_of(part.ask))
    if start >= 0 and part.ask:
        question = question_of(part.ask)
        yield _telling("ask", part.ask, start, start + len(question), "unknown")


def _relationship(
    texts: tuple[tuple[Source, str], ...], situation: Situation, question: str
) -> Iterator[Telling]:
    """The phrase that tells the situation, in the text with the surest of them."""
    found = []
    for source, text in texts:
        at = max(text.rfind(question), 0) if source == "ask" else len(text)
        row, places = relations(situation, text, (at, len(text)))
        found.append((row, source, text, places))
    _, source, text, places = min(found, key=itemgetter(0))
    for start, end in places:
        yield _telling(source, text, start, end, "relationship")


def all_tellings(
    item: Item, part: Part, expression: Expr, situation: Situation, marks: Sequence[Marked]
) -> tuple[Telling, ...]:
    """The telling phrases of a part, and with `marks` of its words the amounts not needed."""
    told = tuple(tellings(item, part, expression, situation))
    return *told, *_not_needed(item, part, marks, told)


def _not_needed(
    item: Item, part: Part, marks: Sequence[Marked], told: Sequence[Telling]
) -> Iterator[Telling]:
    """The amounts of a story that its reading does not use, `marks` being those of all its words.

    One that is told with an amount that is used is no telling of its own.
    """
    shared = stimulus_of(item)
    own = len(shared) + 1 if shared else 0
    for mark in marks:
        source: Source = "ask" if mark.start >= own else "stimulus"
        text, at = (part.ask, own) if source == "ask" else (shared, 0)
        start, end = mark.start - at, mark.end - at
        over = any(
            each.source == source and start < each.end and each.start < end
            for each in told
            if each.role != "unknown"
        )
        if mark.role == "extra" and text[start:end] == mark.text and not over:
            yield _telling(source, text, start, end, "extra")


def _telling(source: Source, text: str, start: int, end: int, role: Role) -> Telling:
    return Telling(source=source, start=start, end=end, role=role, text=text[start:end])


def _conditions(texts: tuple[tuple[Source, str], ...]) -> Iterator[Telling]:
    for source, text in texts:
        for found in re.finditer(_CONDITION, text, re.IGNORECASE):
            yield _telling(source, text, found.start(), found.end(), "condition")
