"""A part of an item, read: what to work out, in which form, and what its words tell."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrate.errors import Declined, ExactError
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import (
    Decimal,
    Expr,
    Frac,
    Mixed,
    Neg,
    Op,
    Relation,
    Whole,
    Writing,
    has_blank,
    terms,
    value,
    walk,
)
from narrate.items.item import Choice, Item, Part
from narrate.reading.bare import find_bare
from narrate.reading.equations import Isolated, isolate
from narrate.reading.goal import Form, Goal, Shape
from narrate.reading.reading import Reading, Situation, Source, Telling, Unknown
from narrate.reading.situation import find_noun, find_situation, misleading_word
from narrate.reading.words.parts import expression_of, read_part
from narrate.reading.words.understood import Understood

_SIMPLEST = (
    r"\b(?:in )?(?:simplest|lowest|simplified|reduced)(?: possible)? (?:form|terms?)\b"
    r"|\bsimplify\b|(?:(?:^|[.?!]) *|\band )\breduce\b"
)
_MIXED = r"\b(?:as|a) mixed number\b"
_IMPROPER = r"\bas an improper fraction\b"
_COMPARISON = r"\bwhich\b[^?]*\b(?:greater|greatest|larger|largest|less|least|smaller|smallest)\b"
_CONDITION = rf"{_SIMPLEST}|{_MIXED}|{_IMPROPER}|\bselect all\b"
_FIRST_LINE = r"\bfirst (?:line|step)\b|\b(?:start|begin)\b|\bfirst\b"
_HOW_TO_START = (
    r"\bhow (?:to|should|could|can|does|do|would|might)\b[^?]*\b(?:start|begin)\b(?! with)"
    r"|\b(?:first step|do first|good (?:start|beginning))\b"
)
_STOP_WORDS = frozenset(
    (
        "of",
        "and",
        "is",
        "was",
        "are",
        "were",
        "the",
        "a",
        "an",
        "in",
        "on",
        "to",
        "then",
        "has",
        "had",
        "left",
        "goes",
        "for",
    )
)


def read(item: Item, part: Part) -> Reading:
    """Read a part. Raises Declined where what to work out is not certain."""
    bare = find_bare(part.ask, part.claim)
    understood = None if part.model or bare else _from_words(item, part)
    given = _without_claim(part, part.model or bare or expression_of(understood))
    blank = isolate(given) if isinstance(given, Relation) else None
    expression = _expression(given, blank)
    goal = _goal(item, part, expression, blank)
    story = bare is None and not _says(part, expression)
    story = story and (understood is None or bool(understood.situation))
    reading = _told(item, part, expression) if story else None
    situation, misleading = reading or ("bare", "")
    return Reading(
        goal=goal,
        expression=expression,
        equation=given if goal.form == "missing" and isinstance(given, Relation) else None,
        target=blank.target if blank else None,
        situation=situation,
        unknown=_unknown(item, part),
        tellings=tuple(_tellings(item, part, expression, situation)),
        misleading=misleading,
        unit=part.unit,
    )


def _from_words(item: Item, part: Part) -> Understood:
    """What the words of a part say, read as arithmetic or as a story. Raises Declined."""
    if re.search(_COMPARISON, part.ask, re.IGNORECASE) and not part.ask.lower().startswith("how"):
        raise Declined("I read a comparison", "comparisons are not solved yet; leave the item out")
    if any(isinstance(choice.tree, Relation) for choice in part.choices):
        raise Declined(
            "the choices are equations, which are not judged one by one",
            "declare the right one with `key: A`, and add a line that says what to work out, "
            "such as `model: 3/4 + 1/5`",
        )
    return read_part(item, part)


def _says(part: Part, expression: Expr) -> bool:
    """Whether the question writes out what to work out, so that there is no story to read."""
    found = (run.piece for run in prose.read(part.ask))
    return any(not isinstance(piece, str) and expression in walk(piece) for piece in found)


def _without_claim(part: Part, given: Writing) -> Writing:
    """What to work out where the words state a pupil's whole equation: its left side."""
    if part.claim is not None and isinstance(given, Relation) and not has_blank(given):
        return given.sides[0]
    return given


def _expression(given: Writing, blank: Isolated | None) -> Expr:
    expression = blank.expression if blank else given
    assert not isinstance(expression, Relation)
    if has_blank(expression):
        raise Declined(
            f"I read {write(expression)}", "write an equation, such as `3/4 + □ = 19/20`"
        )
    try:
        value(expression)
    except ExactError as error:
        raise Declined(f"I read {write(expression)}", f"mend it: {error.message}") from error
    if any(isinstance(node, Decimal) for node in walk(expression)):
        raise Declined(
            f"I read {write(expression)}",
            "decimals are not worked out yet; write fractions instead",
        )
    return expression


def _goal(item: Item, part: Part, expression: Expr, blank: Isolated | None) -> Goal:
    words = _all_words(item, part)
    shape = _shape(words)
    simplest = part.simplest or bool(re.search(_SIMPLEST, words, re.IGNORECASE))
    form = _form(part, blank, expression, simplest or shape != "any")
    starts = re.search(_HOW_TO_START, _question(part.ask), re.IGNORECASE)
    return Goal(
        form=form,
        asked=expression,
        answer=blank.answer if blank else value(expression),
        shape=shape,
        simplest=simplest,
        start=form == "told" and part.claim is None and starts is not None,
    )


def _form(part: Part, blank: Isolated | None, expression: Expr, wanted_form: bool) -> Form:
    """The form of a question. `wanted_form` says that a certain writing of a number is asked."""
    if any(_is_sentence(part, choice) for choice in part.choices):
        return "told"
    if part.claim is not None:
        return "claim"
    if blank and not (blank.alone and blank.target is None):
        return "missing"
    if any(_is_work(choice.tree) for choice in part.choices):
        return "first line" if re.search(_FIRST_LINE, part.ask, re.IGNORECASE) else "equivalent"
    single = len(terms(expression)) == 1 and not wanted_form
    return "equivalent" if part.select_all or (part.choices and single) else "value"


def _is_sentence(part: Part, choice: Choice) -> bool:
    """Whether a choice says something instead of naming a number: only the key can judge it.

    Raises Declined where there is no key, or where the choice is a number with a blank in it.
    """
    if choice.tree is not None and not isinstance(choice.tree, Relation):
        if has_blank(choice.tree):
            raise Declined(f"choice {choice.letter} ({choice.text}) has a blank", "fill it in")
        return False
    if not part.key:
        raise Declined(
            f"choice {choice.letter} ({choice.text}) is an equation",
            "declare the right one: key: A",
        )
    return True


def _is_work(tree: Writing | None) -> bool:
    return tree is not None and any(isinstance(node, Op) for node in walk(tree))


def _shape(words: str) -> Shape:
    if re.search(_MIXED, words, re.IGNORECASE):
        return "mixed"
    return "improper" if re.search(_IMPROPER, words, re.IGNORECASE) else "any"


def _all_words(item: Item, part: Part) -> str:
    return f"{_stimulus(item)} {part.ask}".strip()


def _stimulus(item: Item) -> str:
    return item.stimulus.text if item.stimulus else ""


def _told(item: Item, part: Part, expression: Expr) -> tuple[Situation, str]:
    signs = signs_of(expression)
    story = _all_words(item, part)
    situation, _ = find_situation(signs, story, _question(part.ask))
    return situation, misleading_word(signs, situation, story)


def signs_of(expression: Expr) -> str:
    """Whether a sum only adds ("+"), only takes away after its first amount ("−"), or both."""
    signs = {sign for sign, _ in terms(expression)[1:]}
    if signs == {1, -1} or terms(expression)[0][0] < 0:
        return "±"
    return "−" if -1 in signs else "+"


def _question(ask: str) -> str:
    """The last sentence that asks; the last sentence where none does."""
    sentences = prose.sentences(ask)
    asking = [sentence for sentence in sentences if sentence.rstrip().endswith("?")]
    return (asking or sentences or ("",))[-1]


def _unknown(item: Item, part: Part) -> Unknown:
    question = _question(part.ask)
    return Unknown(question=question, noun=find_noun(question, _all_words(item, part)))


def _tellings(item: Item, part: Part, expression: Expr, situation: Situation) -> Iterator[Telling]:
    texts: tuple[tuple[Source, str], ...] = (("stimulus", _stimulus(item)), ("ask", part.ask))
    if situation != "bare":
        for source, text in texts:
            yield from _amounts(source, text, expression)
        yield from _relationship(texts, expression, part)
    yield from _conditions(texts)
    start = part.ask.rfind(_question(part.ask))
    if start >= 0 and part.ask:
        question = _question(part.ask)
        yield Telling(
            source="ask", start=start, end=start + len(question), role="unknown", text=question
        )


def _amounts(source: Source, text: str, expression: Expr) -> Iterator[Telling]:
    """The numbers of the words that the expression holds, each with the unit that follows."""
    wanted = {value(term) for _, term in terms(expression)}
    for run in prose.read(text):
        if isinstance(run.piece, Whole | Frac | Mixed | Neg) and value(run.piece) in wanted:
            end = _with_unit(text, run.end)
            yield Telling(
                source=source, start=run.start, end=end, role="amount", text=text[run.start : end]
            )


def _with_unit(text: str, end: int) -> int:
    found = re.compile(r" ([a-z]+)").match(text, end)
    return found.end() if found and found.group(1) not in _STOP_WORDS else end


def _relationship(
    texts: tuple[tuple[Source, str], ...], expression: Expr, part: Part
) -> Iterator[Telling]:
    whole = " ".join(text for _, text in texts)
    for source, text in texts:
        _, (start, end) = find_situation(signs_of(expression), whole, _question(part.ask))
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
