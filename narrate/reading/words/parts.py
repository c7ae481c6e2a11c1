"""A part of an item, read from its own words and those it shares with other parts."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import cast

from narrate.errors import Declined
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Expr, Op, Relation, Writing, has_blank, value
from narrate.items.item import Item, Part
from narrate.items.texts import unread_sort
from narrate.reading.bare import find_bare
from narrate.reading.equations import isolate
from narrate.reading.reading import Rounding, Situation
from narrate.reading.words.offered_claim import claim_lines
from narrate.reading.words.understand import read_words
from narrate.reading.words.understood import Understood

SITUATIONS = frozenset(
    (
        "add to", "start", "put together", "larger", "take from", "take apart", "difference",
        "smaller", "in and out",
    )
)  # fmt: skip
"""The situations of sums that a lesson tells in words of their own."""

_OTHER_FORMS = re.compile(
    r"\bwhich (?:expression|equation|statement|of the following|step|method|diagram|model)\b"
    r"|\bestimate\b|\bexplain\b|\bwhat (?:is|was) (?:wrong|the error|the mistake)\b"
    r"|\b(?:not|except)\b:",
    re.IGNORECASE,
)


def read_part(item: Item, part: Part) -> Understood:
    """What a part's words say. Raises Declined where no one reading is certain."""
    text = words_of(item, part)
    _refuse_forms_not_told(part)
    if part.claim is not None or _OTHER_FORMS.search(part.ask):
        pieces = [run.piece for run in prose.read(part.ask) if not isinstance(run.piece, str)]
        if part.claim is None:
            refuse_claimed(part, *pieces)
        written = (piece for piece in pieces if isinstance(piece, Relation | Op))
        work = next((w.sides[0] if isinstance(w, Relation) else w for w in written), None)
        line = f", such as `model: {write(work)}`" if isinstance(work, Op) else ""
        raise Declined(
            "the question asks about work, not for a value",
            f"add a `model:` line that says what to work out{line}",
        )
    numbers = [
        c.text for c in part.choices if c.tree is not None and not isinstance(c.tree, Relation)
    ]
    return read_words(text, tuple(numbers) if len(numbers) == len(part.choices) else ())


def refuse_claimed(part: Part, *numbers: Writing) -> None:
    """Raises Declined where the words tell work and the wrong answer that a pupil gave to it."""
    if lines := claim_lines(part.ask, numbers):
        raise Declined("the question asks what went wrong in a pupil's work", lines)


def refuse_not(part: Part) -> None:
    """Raises Declined where the question asks which of its choices is not so."""
    numbers = part.choices and all(choice.tree is not None for choice in part.choices)
    if numbers and "which is not" in forms_of(part.ask):
        raise Declined(
            "the question asks which choice is not so",
            "say it plainly, such as “Which number is not a multiple of 6?”, or ask which is so",
        )


_BY_HAND = "leave the item out, or tell it yourself with `told:`"


def refuse_unread(part: Part) -> None:
    """Raises Declined where choices are times of day or lists and nothing read them."""
    sorts = {unread_sort(choice.text) for choice in part.choices if choice.tree is None}
    for sort in sorted(sorts - {""}):
        if sort == "times of day" and re.search(r"\bratios?\b", part.ask, re.IGNORECASE):
            raise Declined(
                "the choices are ratios, and I do not see which two amounts are compared",
                "name both amounts, such as “A bed has 12 beans and 8 peas. What is the ratio of "
                "beans to peas?”, or leave the item out",
            )
        if sort == "times of day":
            raise Declined(
                "the choices are times of day, and I am not sure from the words which is asked for",
                "say it in a plain step, such as “The talk began at 8:45 a.m. and lasted 50 "
                "minutes. At what time did the talk end?”, or tell the question with `told:`, "
                "beside its `key:`",
            )
        raise Declined(
            f"the choices are {sort}, which are not read",
            "tell the question with `told:`, beside its `key:`, or leave the item out",
        )


def _refuse_forms_not_told(part: Part) -> None:
    """Raises Declined where the question has a form that no lesson tells yet, and names it."""
    refuse_unread(part)
    if part.choices and re.search(r"\bestimate\b", part.ask, re.IGNORECASE):
        why = "the question asks for an estimate"
        raise Declined(why, f"estimates are no answers yet: {_BY_HAND}")
    judged = re.search(
        r"\b(?:select|choose|mark|which)\b[^.?]*\b(?:greater|less|more) than (?P<of>[\d/]+)",
        part.ask,
        re.IGNORECASE,
    )
    if judged and any(choice.tree is not None for choice in part.choices):
        raise Declined(
            f"the question asks which choices are greater or less than {judged['of']}",
            f"say it plainly, such as “Which number is greater than 2/5?”, or {_BY_HAND}",
        )


def understand(item: Item, part: Part) -> Understood:
    """What a part asks for: by its `model:` line, as written out, or from its words.

    Raises Declined where no one reading is certain.
    """
    bare = None if part.model is not None else find_bare(part.ask, part.claim)
    given = part.model if part.model is not None else bare
    if given is None:
        return read_part(item, part)
    why = "its `model:` line says so" if bare is None else "the question writes it out"
    if not isinstance(given, Relation):
        return Understood(value=value(given), expression=given, unit=part.unit, why=why)
    if part.claim is not None and not has_blank(given):
        left = given.sides[0]
        return Understood(value=value(left), expression=left, unit=part.unit, why=why)
    alone = isolate(given)
    return Understood(value=alone.answer, expression=alone.expression, unit=part.unit, why=why)


_FORMS = (
    ("simplest form", r"\b(?:simplest|lowest|simplified) (?:form|terms)\b|\bsimplify\b"),
    ("mixed number", r"\bmixed number\b"),
    ("improper fraction", r"\bimproper fraction\b"),
    ("decimal", r"\bas a decimal\b"),
    ("rounded", r"\b(?:to the )?nearest\b"),
    ("expression", r"\bwhich (?:expression|equation)\b"),
    ("first step", r"\bfirst (?:step|line)\b"),
    ("select all", r"\bselect all\b|\ball that apply\b"),
    ("which is not", r"\bwhich\b[^?]*\b(?:not|NOT|except|cannot)\b"),
)


def forms_of(text: str) -> list[str]:
    """Which forms of answer the words ask for."""
    return [name for name, pattern in _FORMS if re.search(pattern, text, re.IGNORECASE)]


def words_of(item: Item, part: Part) -> str:
    """The words that a part is read from: the stimulus, then what the part asks."""
    shared = item.stimulus.text if item.stimulus else ""
    return f"{shared} {part.ask}".strip()


def expression_of(found: Understood | None) -> Expr:
    """What to work out. Raises Declined where the answer is no sum or product of the numbers."""
    assert found is not None
    if found.expression is None:
        raise Declined(
            f"I read that the answer is {in_digits(found.value)}",
            f"such questions are not worked out yet; {_BY_HAND}",
        )
    if found.unknown == "remainder":  # total − size × groups, of which only two are told
        match found.expression:
            case Op("−", total, Op("×", size, _)):
                return Op("÷", total, size)
    return found.expression


def in_digits(number: Fraction) -> str:
    """A number as a decimal where it ends, else as a fraction."""
    places = next((n for n in range(7) if (number * 10**n).denominator == 1), None)
    if not places:
        return str(number)
    digits = f"{abs(int(number * 10**places)):0{places + 1}d}"
    return f"{'−' if number < 0 else ''}{digits[:-places]}.{digits[-places:]}"


def rounding_of(found: Understood | None) -> Rounding:
    """How a remainder is to be read."""
    if found is None:
        return ""
    return "remainder" if found.unknown == "remainder" else cast("Rounding", found.rounding)


_BY_UNKNOWN: dict[tuple[str, str], Situation] = {
    ("take from", "start"): "start",
    ("take from", "change"): "change taken",
    ("compare and put together", "total"): "both compared",
    ("needed", "addend"): "needed",
    ("needed", "what there is"): "take apart",
    ("add to", "change"): "change added",
    ("add to", "start"): "start added",
    ("equal groups", "product"): "equal groups",
    ("equal groups", "group size"): "group size",
    ("equal groups", "for one"): "for one",
    ("equal groups", "mean"): "mean",
    ("put together", "addend"): "of both",
    ("equal groups", "number of groups"): "number of groups",
    ("equal groups", "remainder"): "left over",
    ("times as many", "product"): "times as many",
    ("times as many", "group size"): "times fewer",
    ("times as many", "number of groups"): "how many times",
    ("part of", "part"): "part of",
    ("area", "product"): "area",
    ("area", "perimeter"): "perimeter",
    ("area", "equal sides"): "equal sides",
    ("area", "side"): "side",
}
"""Situations that a lesson tells in words of their own, by what is unknown in them."""


_SIGNS: tuple[tuple[str, str], ...] = (
    ("+", "add to|start|put together|larger"),
    ("−", "take from|take apart|difference|smaller|needed|change added|change taken|start added"),
    ("×", "equal groups|times as many"),
    ("÷", "group size|for one|mean|number of groups|times fewer|how many times"),
)
_LAST_SIGN = {situation: sign for sign, row in _SIGNS for situation in row.split("|")}
"""The last operation where the words of a situation fit: nothing is joined by dividing."""


def situation_of(found: Understood) -> Situation:
    """The situation that a story was read as, "steps" where a lesson has no words for it."""
    by_unknown = _BY_UNKNOWN.get((found.situation, found.unknown))
    if by_unknown is None and found.situation in SITUATIONS:
        by_unknown = cast("Situation", found.situation)
    last = found.expression.sign if isinstance(found.expression, Op) else ""
    if by_unknown is None or _LAST_SIGN.get(by_unknown, last) != last:
        return "steps"
    return by_unknown
