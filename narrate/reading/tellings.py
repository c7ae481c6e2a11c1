"""Phrases of an item that tell: amounts, how they are related, what is asked, the form wanted."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrate.exact import prose
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Neg, Whole, terms, value, walk
from narrate.items.item import Item, Part
from narrate.reading.reading import Situation, Source, Telling, Unknown
from narrate.reading.situation import find_noun, phrase_of
from narrate.reading.words.plain import word_set

SIMPLEST = (
    r"\b(?:in )?(?:simplest|lowest|simplified|reduced)(?: possible)? (?:form|terms?)\b"
    r"|\bsimplify\b|(?:(?:^|[.?!]) *|\band )\breduce\b"
)
MIXED = r"\b(?:as|a) mixed number\b"
IMPROPER = r"\bas an improper fraction\b"
DECIMAL = r"\bas a decimal\b"
_CONDITION = rf"{SIMPLEST}|{MIXED}|{IMPROPER}|\bselect all\b"
_NUMBERS = Whole | Frac | Mixed | Decimal
_WORD, _TWO_WORDS = re.compile(r" [a-z]+"), re.compile(r" [a-z]*[a-rt-z] [a-z]+s\b")
_STOP_WORDS = word_set(
    "of and is was are were the a an in on to then has had left goes for so short back off out "
    "away up down less cheaper will would can could have come came stay stays stayed died this "
    "that these those last next two three four five six seven eight nine ten eleven twelve"
)
"""Words that are no name of what is counted, where they follow a number."""


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
            yield from _amounts(source, text, expression)
        yield from _relationship(texts, situation, part)
    yield from _conditions(texts)
    start = part.ask.rfind(question_of(part.ask))
    if start >= 0 and part.ask:
        question = question_of(part.ask)
        yield Telling(
            source="ask", start=start, end=start + len(question), role="unknown", text=question
        )


def _amounts(source: Source, text: str, expression: Expr) -> Iterator[Telling]:
    """The numbers of the words that the expression holds, each with the unit that follows."""
    wanted = {value(node) for node in walk(expression) if isinstance(node, _NUMBERS)}
    for run in prose.read(text):
        percent = text[run.end : run.end + 1] == "%"
        if not isinstance(run.piece, _NUMBERS | Neg):
            continue
        if value(run.piece) / (100 if percent else 1) in wanted:
            several = isinstance(run.piece, Whole) and run.piece.number != 1
            end = _with_unit(text, run.end + percent, several)
            start = run.start - (text[run.start - 1 : run.start] == "$")
            yield Telling(source=source, start=start, end=end, role="amount", text=text[start:end])


def _with_unit(text: str, end: int, several: bool) -> int:
    """Where the word after a number ends; the second where `several` are "seed packets".

    Behind a percent sign no unit stands.
    """
    if text[end - 1 : end] == "%":
        return end
    if square := re.match(r" (?:square|cubic) [a-z]+", text[end:]):
        return end + square.end()
    for words in (_TWO_WORDS, _WORD) if several else (_WORD,):
        found = words.match(text, end)
        if found and _STOP_WORDS.isdisjoint(found.group().split()):
            return found.end()
    return end


def _relationship(
    texts: tuple[tuple[Source, str], ...], situation: Situation, part: Part
) -> Iterator[Telling]:
    """The phrase that tells the situation, if it is in one of the texts."""
    whole = " ".join(text for _, text in texts)
    for source, text in texts:
        start, end = phrase_of(situation, whole, question_of(part.ask))
        phrase = whole[start:end]
        place = text.find(phrase) if phrase else -1
        if place >= 0:
            yield Telling(
                source=source,
                start=place,
                end=place + len(phrase),
                role="relationship",
                text=phrase,
            )
            return


def _conditions(texts: tuple[tuple[Source, str], ...]) -> Iterator[Telling]:
    for source, text in texts:
        for found in re.finditer(_CONDITION, text, re.IGNORECASE):
            yield Telling(
                source=source, start=found.start(), end=found.end(), role="condition", text=found[0]
            )
