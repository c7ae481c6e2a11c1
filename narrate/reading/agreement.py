"""Whether `model:` and `claim:` agree with an item's words.

Faults where they cannot both be right; notes where a number stands in one and not in the other,
which a good item may well have (minutes told, hours worked with), so that a person looks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from narrate.errors import Declined, ExactError, Fault
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.spoken import fraction_words, speak
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Op, Relation, Whole, Writing, value, walk
from narrate.items.item import Item, Part
from narrate.reading.bare import find_bare
from narrate.reading.equations import isolate
from narrate.reading.goal import Goal
from narrate.reading.tellings import question_of
from narrate.reading.words.naming import is_name
from narrate.reading.words.parts import read_part

Numeral = Whole | Frac | Mixed | Decimal

_NUMERALS = (Whole, Frac, Mixed, Decimal)
_WENT_WRONG = r"\b(?:wrong|mistakes?|errors?)\b"
_WHETHER = (
    r"(?:^|[.?!]\s+)(?:is|are|was|were|does|do|did|has|have)\b[^.?!]*\?"
    r"|\bwhether\b|\bif (?:not|so)\b"
)
_MOST_SAID = 20
"""Fractions are looked for in words up to twentieths."""


def contradiction(item: str, part: Part) -> Fault | None:
    """The fault of a model that gives another answer than the question written out in the stem."""
    asked = find_bare(part.ask, part.claim) if part.model is not None else None
    if part.model is None or asked is None or isinstance(asked, _NUMERALS):
        return None
    one, other = _amounts(part.model), _amounts(asked)
    if not one or not other or one & other:
        return None
    return Fault(
        place=part.at("model"),
        wrong=f"`model:` is {write(part.model)}, but the question asks for {write(asked)}",
        right="correct one of them, or leave `model:` out",
        item=item,
    )


def _amounts(writing: Writing) -> set[Fraction]:
    """What an expression or equation may be asking for; nothing where that is not certain."""
    try:
        if not isinstance(writing, Relation):
            return {value(writing)}
        blank = isolate(writing)
        return {blank.answer, value(blank.expression)}
    except (Declined, ExactError):
        return set()


def right_claim(item: str, part: Part, goal: Goal) -> Fault | None:
    """The fault of a pupil's answer that is right where the question says that something is wrong.

    A question whether it is right may well have a right one.
    """
    if part.claim is None or not goal.accepts(part.claim):
        return None
    asks_what = re.search(_WENT_WRONG, part.ask, re.IGNORECASE)
    if not asks_what or re.search(_WHETHER, part.ask, re.IGNORECASE):
        return None
    claim, asked = write(part.claim), write(goal.asked)
    makes = "" if claim == asked else f": {asked} makes {claim}"
    return Fault(
        place=part.at("claim"),
        wrong=f"the claim {claim} is right{makes}, so nothing went wrong",
        right="write the wrong answer of a pupil, or ask whether it is right",
        item=item,
    )


def notes(item: Item) -> Iterator[str]:
    """Numbers that stand in `model:` or `claim:` but not in the words, or the other way round.

    Each is one line with its place. Items without a model have none: what they ask is read.
    """
    models = [part for part in item.parts if part.model is not None]
    if not models:
        return
    known = {Fraction(1), *_held_by_figure(item)}  # a whole that is told about needs no number
    for part in item.parts:
        told = _joined(f"{_all_words(item, part)} {_sentences(part)}")
        yield from (f"{part.at('model')}: {item.id}: {note}" for note in _written_out(part))
        for key, writing in (("model", part.model), ("claim", part.claim)):
            for numeral in _numerals(writing):
                if value(numeral) not in known and not _is_told(numeral, told):
                    yield (
                        f"{part.at(key)}: {item.id}: `{key}:` holds {write(numeral)}, which the "
                        "words do not; look whether it is meant"
                    )
                known.add(value(numeral))
        known |= _worked(part)
    yield from _left_out(item, known)


def _written_out(part: Part) -> Iterator[str]:
    """Sums written out in a question with other words, which the model does not work out."""
    if part.model is None or find_bare(part.ask, part.claim) is not None:
        return
    worked = _amounts(part.model)
    for tree in _trees(part.ask):
        sums = [node for node in walk(tree) if isinstance(node, Op)]
        amounts = _amounts(tree) | {amount for node in sums for amount in _amounts(node)}
        if sums and worked and not amounts & worked:
            yield (
                f"the question writes out {write(tree)}, which `model:` {write(part.model)} "
                "does not work out; look whether it is meant"
            )


def _held_by_figure(item: Item) -> set[Fraction]:
    strip = item.stimulus.diagram if item.stimulus else None
    return {Fraction(strip.wholes), Fraction(strip.parts)} if strip else set()


def _worked(part: Part) -> set[Fraction]:
    """What a part works with and makes, which a later one may use."""
    asked = part.model or find_bare(part.ask, part.claim)
    if asked is None:
        return set()
    return {value(numeral) for numeral in _numerals(asked)} | _amounts(asked)


def _numerals(writing: Writing | None) -> tuple[Numeral, ...]:
    if writing is None:
        return ()
    found = (node for node in walk(writing) if isinstance(node, _NUMERALS))
    return tuple(dict.fromkeys(found))


def _all_words(item: Item, part: Part) -> str:
    """What a part is told in: the shared text, what its picture shows, the question."""
    given = item.stimulus
    shown = given.picture.alt if given and given.picture else ""
    return f"{given.text if given else ''} {shown} {part.ask}"


def _sentences(part: Part) -> str:
    """Choices that say something, equations too: their numbers are told as well."""
    said = (c.text for c in part.choices if c.tree is None or isinstance(c.tree, Relation))
    return " ".join(said)


# -- numbers in words


def _joined(text: str) -> str:
    """The text with "1 and 1/2" as 1 1/2."""
    return re.sub(r"\b(\d+) and (?=\d+/\d)", r"\1 ", text)


def _is_told(numeral: Numeral, text: str) -> bool:
    """Whether a text holds a number, in symbols or in words."""
    if value(numeral) in {value(each) for _, found in _runs(text) for each in found}:
        return True
    said = re.escape(_plain(speak(numeral)))
    return re.search(rf"\b{said}\b", _plain(text)) is not None


def _trees(text: str) -> Iterator[Writing]:
    return (run.piece for run in prose.read(text) if not isinstance(run.piece, str))


def _runs(text: str) -> list[tuple[prose.Run, tuple[Numeral, ...]]]:
    """The mathematics of a text, each stretch with the numbers in it."""
    runs = ((run, run.piece) for run in prose.read(text))
    return [(run, _numerals(tree)) for run, tree in runs if not isinstance(tree, str)]


_PLAIN = (
    (r"[-‐‑]", " "),
    (r"\bquarter", "fourth"),
    (r"\ban? (?=half\b|\w+(?:th|rd)\b)", "one "),
    (r"\b(?:first|second|other|last) half\b", " "),
    (r"(?<!one )\bhalf\b", "one half"),
)


def _plain(text: str) -> str:
    """Words as `speak` says them: "two-and-a-quarter" is "two and one fourth"."""
    text = " ".join(text.lower().split())
    for pattern, plain in _PLAIN:
        text = re.sub(pattern, plain, text)
    return text


@lru_cache(maxsize=1)
def _fractions_said() -> dict[str, Expr]:
    """Fractions by their words, "five twelfths"."""
    return {
        fraction_words(top, bottom, "en"): Frac(top, bottom)
        for bottom in range(2, _MOST_SAID + 1)
        for top in range(1, bottom)
    }


# -- the other way round


def _left_out(item: Item, used: set[Fraction]) -> Iterator[str]:
    """Amounts of the words that no part uses and that are not read as idle."""
    texts = [(item.stimulus.text, item.parts[0])] if item.stimulus else []
    for words, part in (*texts, *((part.ask, part) for part in item.parts)):
        text = _joined(words)
        found = _amounts_in(text, used, part)
        idle = _idle(item, part) if found else set()
        for numeral in (each for each in found if value(each) not in idle):
            yield (
                f"{part.at('model')}: {item.id}: the words hold {write(numeral)}, which "
                "`model:` leaves out; look whether it is meant"
            )


def _amounts_in(text: str, used: set[Fraction], part: Part) -> list[Expr]:
    """The numbers of a text that are not used, without those that only name: Class 4, 9:20.

    Beside fractions alone, wholes count only where they are of what is used or asked for.
    """
    question = question_of(text)
    parts = all(isinstance(numeral, Frac | Mixed) for numeral in _numerals(part.model))
    units = _units(text, used, part.unit) if parts and part.model is not None else None
    written = (
        numeral
        for run, found in _runs(text)
        if not (is_name(text, run.start, question) or _is_time(text, run.start, run.end))
        for numeral in found
        if not isinstance(numeral, Whole) or units is None or _unit_at(text, run.end) in units
    )
    return [n for n in dict.fromkeys((*written, *_said(text))) if value(n) not in used]


_HOW_MANY = re.compile(r"\bhow many (?:more |full )?([a-z]{2,})")


def _units(text: str, used: set[Fraction], unit: str) -> set[str]:
    """The units of the numbers that are used, and what is asked for."""
    found = {_unit_at(text, run.end) for run, held in _runs(text) if {*map(value, held)} & used}
    asked = {word.removesuffix("s") for word in _HOW_MANY.findall(text.lower())}
    return (found | asked | {unit.removesuffix("s")}) - {""}


def _unit_at(text: str, place: int) -> str:
    """The word right after a number, in the singular; "" where it is no unit."""
    found = re.compile(r"\s+([a-z]{2,})").match(text, place)
    return found[1].removesuffix("s") if found and found[1] not in ("of", "and", "is") else ""


def _is_time(text: str, start: int, end: int) -> bool:
    """Whether the digits at a place belong to a time of day."""
    return text[end : end + 1] == ":" or bool(re.search(r"\d:$", text[:start]))


def _idle(item: Item, part: Part) -> set[Fraction]:
    """The numbers that are read as not needed, where the words are read as `model:` says."""
    try:
        found = read_part(item, part)
    except Declined:
        return set()
    if part.model is None or found.value not in _amounts(part.model):
        return set()
    idle = (
        _numerals(tree)
        for mark in found.marks
        if mark.role == "extra"
        for tree in _trees(mark.text)
    )
    return {value(numeral) for numerals in idle for numeral in numerals}


def _said(text: str) -> Iterator[Expr]:
    """Fractions in words: "five twelfths", and "a third of", since "a third bed" is no fraction."""
    words = "|".join(sorted(_fractions_said(), key=len, reverse=True))
    wholes = "|".join(speak(Whole(number)) for number in range(1, _MOST_SAID + 1))
    pattern = rf"(?P<mixed>\b(?:{wholes}) and )?\b(?P<said>{words})\b(?P<of> of\b)?"
    for found in re.finditer(pattern, _plain(text)):
        if not found["mixed"] and (found["of"] or not found["said"].startswith("one ")):
            yield _fractions_said()[found["said"]]
