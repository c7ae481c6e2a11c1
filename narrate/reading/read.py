"""A part of an item, read: what to work out, in which form, and what its words tell."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from narrate.errors import Declined, ExactError
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import (
    Decimal,
    Expr,
    Frac,
    Group,
    Mixed,
    Op,
    Relation,
    Whole,
    Writing,
    has_blank,
    value,
    walk,
)
from narrate.items.item import Choice, Item, Part
from narrate.reading.answer_units import unit_of_answer
from narrate.reading.bare import find_bare
from narrate.reading.demanded import as_understood, demanded
from narrate.reading.equations import Isolated, isolate
from narrate.reading.goal import Form, Goal, Shape
from narrate.reading.marked_choices import as_all, ended_at_words
from narrate.reading.phrase_asked import phrase_reading
from narrate.reading.reading import (
    Counted,
    Reading,
    Rounding,
    Situation,
    rounded,
)
from narrate.reading.remainders import refuse_part_of_things, rounding_in
from narrate.reading.situation import find_situation, fits, misleading_word
from narrate.reading.tellings import (
    DECIMAL,
    IMPROPER,
    MIXED,
    SIMPLEST,
    all_tellings,
    all_words,
    question_of,
    signs_of,
    unknown_of,
)
from narrate.reading.words.parts import (
    expression_of,
    read_part,
    refuse_claimed,
    refuse_not,
    refuse_unread,
    rounding_of,
    situation_of,
    understand,
)
from narrate.reading.words.understood import Understood
from narrate.reading.work_asked import asks_for_work, read_work, understand_work

_COMPARISON = (
    r"^(?!how\b).*\bwhich\b[^?]*\b(?:greater|greatest|larger|largest|less|least|smaller|smallest)\b"
)
_NUMBERS = Whole | Frac | Mixed | Decimal
_FIRST_LINE = r"\bfirst (?:line|step)\b|\b(?:start|begin)\b|\bfirst\b"
_HOW_TO_START = (
    r"\bhow (?:to|should|could|can|does|do|would|might)\b[^?]*\b(?:start|begin)\b(?! with)"
    r"|\b(?:first step|do first|good (?:start|beginning))\b"
)


def read(item: Item, part: Part) -> Reading:
    """Read a part. Raises Declined where what to work out is not certain."""
    found = _read_all(item, as_all(part))
    return replace(found, tellings=ended_at_words(part, found.tellings))


def _read_all(item: Item, part: Part) -> Reading:
    beyond = phrase_reading(item, part) or demanded(item, part, _read)
    if beyond is None and asks_for_work(part):
        refuse_not(part)
        return read_work(item, part)
    return beyond or _read(item, part)


def understand_part(item: Item, part: Part) -> Understood:
    """What a part asks for, as `narrate read` tells it. Raises Declined where it is not certain."""
    part = as_all(part)
    if (said := phrase_reading(item, part)) is not None:
        why = "the phrase allows one reading"
        return Understood(value=said.goal.answer, expression=said.expression, why=why)
    beyond = demanded(item, part, _read)
    if beyond is None and part.model is None and asks_for_work(part):
        return understand_work(item, part)
    return understand(item, part) if beyond is None else as_understood(item, beyond)


def _read(item: Item, part: Part) -> Reading:
    """Read a part that asks for no more than a value, a line of work or an equation's number."""
    refuse_not(part)
    bare = find_bare(part.ask, part.claim)
    understood = None if part.model or bare else _from_words(item, part)
    given = _without_claim(part, part.model or bare or expression_of(understood))
    blank = _isolated(part, given) if isinstance(given, Relation) else None
    expression = _expression(given, blank)
    story = bare is None and not _says(part, expression)
    story = story and (understood is None or bool(understood.situation))
    rounding = rounding_of(understood)
    if story and part.model is not None:
        rounding = rounding_in(expression, all_words(item, part), part)
        understood = (
            None if is_sum(expression) else _same_in_words(item, part, expression, rounding)
        )
    elif story and not rounding and understood and understood.unknown != "group size":
        rounding = rounding_in(expression, all_words(item, part), part)
    if story and blank is None and not rounding:
        refuse_part_of_things(expression, part)
    goal = _goal(item, part, expression, blank, rounding)
    if blank is None:
        _refuse_bare_number(part, goal, told=understood is not None and story)
    situation, misleading = _told(item, part, expression, understood) if story else ("bare", "")
    marks = understood.marks if understood and story else ()
    return Reading(
        goal=goal,
        expression=expression,
        equation=given if goal.form == "missing" and isinstance(given, Relation) else None,
        target=blank.target if blank else None,
        situation=situation,
        unknown=unknown_of(item, part),
        tellings=all_tellings(item, part, expression, situation, marks),
        misleading=misleading,
        unit=part.unit,
        rounding=rounding,
        decimals=_in_decimals(item, part, expression),
        money=_money(part, understood),
        counted=(*_of_answer(item, part, expression, understood), *_counted(understood)),
    )


def _isolated(part: Part, given: Relation) -> Isolated:
    """An equation with its blank alone. Raises Declined where it is what a pupil made of work."""
    if part.model is None and part.claim is None:
        refuse_claimed(part, given)
    return isolate(given)


def _refuse_bare_number(part: Part, goal: Goal, *, told: bool) -> None:
    """Raises Declined where the words name a number and do not say what to do with it.

    `told` says that a story was read, and the number is its answer: 16 of 24 are 16/24.
    """
    formed = goal.simplest or goal.shape != "any" or part.model is not None
    asks = formed or part.boxes not in ((), ("number",))
    if goal.form == "value" and isinstance(goal.asked, _NUMBERS) and not asks:
        if told:
            raise Declined(
                f"I read that the answer is {write(goal.asked)}",
                "such questions are not worked out yet; leave the item out, or tell it yourself "
                "with `told:`",
            )
        raise Declined(
            f"I read {write(goal.asked)} alone",
            "say what to do with it, or add a `model:` line that says what to work out",
        )


def _counted(understood: Understood | None) -> tuple[Counted, ...]:
    return understood.counted if understood else ()


def _of_answer(
    item: Item, part: Part, expression: Expr, understood: Understood | None
) -> Iterator[Counted]:
    """What the answer counts: the unit beside the boxes, else as the words name it."""
    unit = part.unit
    if not unit and understood and not _money(part, understood):
        unit = unit_of_answer(understood, part.ask, all_words(item, part))
    if unit not in ("", "dollars"):
        yield Counted(tree=expression, unit=unit)


def _in_decimals(item: Item, part: Part, expression: Expr) -> bool:
    """Whether the answer is written as a decimal."""
    trees = [expression, *(c.tree for c in part.choices if c.tree is not None)]
    if part.claim is not None:
        trees.append(part.claim)
    written = any(isinstance(node, Decimal) for tree in trees for node in walk(tree))
    return written or bool(re.search(DECIMAL, all_words(item, part), re.IGNORECASE))


def _money(part: Part, understood: Understood | None) -> bool:
    """Whether the answer is dollars, by the story or by how the part asks for it."""
    return (understood is not None and understood.money) or _asks_for_money(part)


def _asks_for_money(part: Part) -> bool:
    """Whether the answer is dollars: the boxes, the choices or a bare question say so."""
    return (
        part.unit in ("dollars", "dollar")
        or (bool(part.choices) and all(c.text.startswith("$") for c in part.choices))
        or ("$" in part.ask and find_bare(part.ask.replace("$", ""), part.claim) is not None)
    )


def _from_words(item: Item, part: Part) -> Understood:
    """What the words of a part say, read as arithmetic or as a story. Raises Declined."""
    refuse_unread(part)
    if re.search(_COMPARISON, question_of(part.ask), re.IGNORECASE):
        if any(_is_work(choice.tree) for choice in part.choices):
            raise Declined(
                "the question compares what the choices come to, and such questions are not "
                "worked out yet",
                "tell it yourself with `told:`, beside its `key:`, or leave the item out",
            )
        raise Declined(
            "I read a comparison, and I am not sure of what",
            "say it plainly, such as “Which number is greater than 2/5?”, or leave the item out",
        )
    if any(isinstance(choice.tree, Relation) for choice in part.choices):
        raise Declined(
            "the choices are equations, which are not judged one by one",
            "declare the right one with `key: A`, and add a `model:` line that says what to work "
            "out",
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
    expression = _tidy(expression)
    if has_blank(expression):
        raise Declined(
            f"I read {write(expression)}", "write an equation, such as `3/4 + □ = 19/20`"
        )
    try:
        value(expression)
    except ExactError as error:
        raise Declined(f"I read {write(expression)}", f"mend it: {error.message}") from error
    return expression


def _tidy(tree: Expr) -> Expr:
    """An expression without brackets around single numbers: (2/3) × (12) is 2/3 × 12."""
    match tree:
        case Group(Whole() | Decimal() | Frac() | Mixed() as inner):
            return inner
        case Group(inner):
            return Group(_tidy(inner))
        case Op(sign, left, right):
            return Op(sign, _tidy(left), _tidy(right))
        case _:
            return tree


def _goal(
    item: Item, part: Part, expression: Expr, blank: Isolated | None, rounding: Rounding
) -> Goal:
    words = all_words(item, part)
    shape = _shape(words)
    simplest = part.simplest or bool(re.search(SIMPLEST, words, re.IGNORECASE))
    form = _form(part, blank, expression, simplest or shape != "any")
    starts = re.search(_HOW_TO_START, question_of(part.ask), re.IGNORECASE)
    return Goal(
        form=form,
        asked=expression,
        answer=rounded(blank.answer if blank else value(expression), expression, rounding),
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
    single = not _is_work(expression) and not wanted_form
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
        what = "an equation" if choice.tree is not None else "no number or expression"
        raise Declined(
            f"choice {choice.letter} ({choice.text}) is {what}", "declare the right one: key: A"
        )
    return True


def _is_work(tree: Writing | None) -> bool:
    return tree is not None and any(isinstance(node, Op) for node in walk(tree))


def _shape(words: str) -> Shape:
    if re.search(MIXED, words, re.IGNORECASE):
        return "mixed"
    return "improper" if re.search(IMPROPER, words, re.IGNORECASE) else "any"


def _told(
    item: Item, part: Part, expression: Expr, understood: Understood | None
) -> tuple[Situation, str]:
    """The situation of a story, and a word of it that would mislead.

    It is the one that its words were read as; where `model:` says what to add and take away, the
    one that the signs of the sum and telling phrases allow.
    """
    read_as = situation_of(understood) if understood and understood.situation else None
    if not is_sum(expression):
        return read_as or "steps", ""
    signs, story = signs_of(expression), all_words(item, part)
    if understood and understood.unknown == "answer":
        return read_as or "steps", ""  # the form of its words is not its signs
    if read_as is None or not fits(read_as, signs):
        read_as = find_situation(signs, story, question_of(part.ask))
    return read_as, misleading_word(signs, story)


def is_sum(expression: Expr) -> bool:
    """Whether an expression only adds and takes away."""
    return not any(isinstance(node, Op) and node.sign in "×÷" for node in walk(expression))


def _same_in_words(
    item: Item, part: Part, expression: Expr, rounding: Rounding
) -> Understood | None:
    """What the words say, where it is what `model:` says too; None where it is not certain."""
    try:
        found = read_part(item, part)
        same = value(expression_of(found)) == value(expression)
    except Declined:
        return None
    return found if same and rounding_of(found) == rounding else None
