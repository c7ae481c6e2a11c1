"""The composer: every row is tried, and a reading stands only where all that fit agree."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from fractions import Fraction

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.tree import Op, value, walk
from narrate.reading.equal_groups.ratios import read_ratio
from narrate.reading.equal_groups.read import read_groups
from narrate.reading.equal_groups.rectangles import read_rectangle
from narrate.reading.sized.read import read_sized
from narrate.reading.tested.read import tested_value
from narrate.reading.vetoes.vetoed import vetoed
from narrate.reading.words import (
    again,
    by_units,
    changes,
    complement,
    difference,
    doing,
    elsewhere,
    form_alike,
    form_and_others,
    form_everyday,
    form_groups,
    form_kinds,
    form_lists,
    form_measures,
    form_numbers,
    form_of_group,
    form_pairs,
    form_prices,
    form_rests,
    form_rows,
    form_scaled,
    form_shares,
    form_two_steps,
    form_undone,
    form_wholes,
    goals,
    groups,
    laid,
    ledger,
    measured,
    pointing,
    relations,
    several,
    shapes,
    together,
    totals,
    two,
)
from narrate.reading.words.arithmetic import read_arithmetic
from narrate.reading.words.askew import beside_the_question
from narrate.reading.words.certain import why_not
from narrate.reading.words.chains import derived
from narrate.reading.words.choices import held_by
from narrate.reading.words.chosen import chosen
from narrate.reading.words.declining import Unsure, unsure
from narrate.reading.words.equalities import read_equality
from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.figures import read_figure
from narrate.reading.words.forms import read_form
from narrate.reading.words.idle import without_idle
from narrate.reading.words.last_question import last_question
from narrate.reading.words.number_facts import read_number_fact
from narrate.reading.words.plain import LONGEST, SHORT
from narrate.reading.words.story import tell
from narrate.reading.words.terse import marked_in_full, terse
from narrate.reading.words.understood import Understood, from_answer
from narrate.reading.words.unfinished import as_question, marked_in
from narrate.reading.words.why_told import told_plainly
from narrate.reading.words.witness import contradicted
from narrate.reading.words.written_out import story_beside, written_out

ROWS: tuple[Callable[[Story], Iterator[Answer]], ...] = (
    changes.changes,
    together.together,
    together.apart,
    complement.complement,
    together.asked_more,
    together.change_back,
    difference.difference,
    difference.of_two,
    elsewhere.from_to,
    relations.related,
    groups.product,
    groups.number_of_groups,
    groups.group_size,
    groups.chained,
    groups.array,
    groups.same_rate,
    groups.left_over,
    groups.and_left_over,
    groups.how_many_times,
    again.made_again,
    again.in_a_span,
    measured.measured,
    pointing.pointed,
    shapes.parts_of_one,
    shapes.share_of,
    shapes.fraction_of_set,
    shapes.rectangle,
    shapes.equal_sided,
    shapes.sides_told,
    totals.mean,
    totals.whole_of,
    totals.both_told,
    two.other_of_two,
    two.other_named,
    several.last_of_several,
    goals.short_of,
    goals.to_reach,
    goals.to_fill,
    goals.to_do,
    goals.paid_back,
    doing.doing,
    by_units.by_units,
    laid.laid,
    ledger.ledger,
)
"""The situations, each a function from a story to what it makes of it."""


def read_words(text: str, choices: Sequence[str] = ()) -> Understood:
    """The one reading of a question's words. Raises Declined where there is none or more than one.

    With `choices`, a reading whose value none of them holds is doubted and declined.
    """
    if len(text) > LONGEST:
        raise Declined(
            f"the words are {len(text)} characters long",
            f"use at most {LONGEST}, or a `model:` line",
        )
    asked = as_question(text)
    if (right := chosen(asked, choices)) is not None:
        return Understood(value=right, expression=None, why="the question says which choice it is")
    if (right := tested_value(asked, choices)) is not None:
        return Understood(value=right, expression=None, why="each choice was tested")
    try:
        found = _read_or_terse(asked, chosen=bool(choices))
    except Unsure as declined:
        declined.choices, declined.said = choices, text
        raise
    found = found if asked == text else marked_in(text, found)
    if choices and not held_by(found.value, choices):
        worked = (
            f"{write(found.expression)}, which is {found.value}"
            if found.expression
            else f"{found.value}"
        )
        raise Declined(
            f"I read {worked}, but no choice is {found.value}",
            "correct the choices, or add a `model:` line that says what to work out",
        )
    return found


_SEVERAL = "more than one reading fits"


def _read_or_terse(text: str, *, chosen: bool) -> Understood:
    """The reading of a text without its idle words, or of what it says in fewer words where that
    is declined; else of the text as it stands.

    In fewer words every number must be needed: what tells them apart may have been left out.
    """
    less = without_idle(text)
    try:
        found = _read(less, chosen=chosen)
        if less != text and (why := vetoed(text, found.expression)):
            raise unsure(text, f"I am not sure how they go together: {told_plainly(why)}")
        return found
    except Declined:
        told = terse(text)
        if told is None and less == text:
            raise
        with suppress(Declined):
            if told is None:
                return _read(text, chosen=chosen)
            said = told.text
            found = _agreed(said, (read_sized(said), read_form(said, FORMS), read_groups(said)))
            needed = all(mark.role != "extra" for mark in found.marks)
            if needed and not vetoed(text, found.expression):
                return marked_in_full(text, told, found)
        raise


def _read(text: str, *, chosen: bool = False) -> Understood:
    if len(text) <= SHORT:
        bare = read_arithmetic(text) or read_equality(text)
        if bare is not None:
            why = "the question writes it out"
            return Understood(value=bare.value, expression=bare.expression, why=why)
        if (fact := read_number_fact(text)) is not None:
            worked, tree = (fact, None) if isinstance(fact, Fraction) else (value(fact), fact)
            return Understood(value=worked, expression=tree, why="the question names what to find")
    if (alone := last_question(text)) != text:
        fact = read_number_fact(alone)
        if fact is not None:
            worked, tree = (fact, None) if isinstance(fact, Fraction) else (value(fact), fact)
            return Understood(value=worked, expression=tree, why="the question names what to find")
    if (out := written_out(text)) is not None:
        _refuse_contradicted(text, out[0], chosen=chosen)
        return Understood(value=out[0], expression=out[1], why="the question writes it out")
    others = (reader(text) for reader in (read_figure, read_groups, read_ratio, read_rectangle))
    return _agreed(text, (read_sized(text), read_form(text, FORMS), *others))


def _agreed(text: str, formed: Sequence[Understood | None]) -> Understood:
    """The story of a text, or its reading by a form; where there are several, they must agree."""
    formed = [None if each and vetoed(text, each.expression) else each for each in formed]
    found = [each for each in formed if each is not None]
    told: list[Story] = []
    try:
        told.append(tell(text))
        found.insert(0, read_story(told[0], text))
    except Declined:
        apart = [each for at, each in enumerate(formed) if at != _BY_FORM and each is not None]
        if not found or any(_speaks_against(s, each.value) for s in told for each in apart):
            raise
    if len({each.value for each in found}) > 1:
        raise unsure(text, _SEVERAL)
    written = (100 * found[0].value).denominator == 1
    return min(found, key=_unwritten) if written else found[0]


_BY_FORM = 1
"""The place of the reading by a form, whose rows look at loaded words themselves."""


def _unwritten(found: Understood) -> int:
    """How many steps of the work make a number that no one writes: 2/3 of a dollar for one."""
    nodes = walk(found.expression) if found.expression else ()
    return sum(isinstance(n, Op) and (100 * value(n)).denominator != 1 for n in nodes)


FORMS = (
    *form_rows.ROWS, *form_numbers.ROWS, *form_groups.ROWS, *form_kinds.ROWS, *form_prices.ROWS,
    *form_scaled.ROWS, *form_lists.ROWS, *form_measures.ROWS, *form_shares.ROWS,
    *form_wholes.ROWS, *form_of_group.ROWS, *form_two_steps.ROWS, *form_everyday.ROWS,
    *form_undone.ROWS, *form_and_others.ROWS, *form_alike.ROWS, *form_rests.ROWS,
    *form_pairs.ROWS,
)  # fmt: skip


def _speaks_against(story: Story, worth: Fraction) -> bool:
    """Whether words beside the numbers go against a reading with this value."""
    if beside_the_question(story):
        return True
    tried = ((s, a) for s in (story, *derived(story)) for row in ROWS for a in row(s))
    same = [(s, a) for s, a in tried if a.value == worth]
    return any(contradicted(s, a) or why_not(s, a) in _FOR_ALL for s, a in same)


_FOR_ALL = ("it is only planned", "the question asks in another unit")
"""Doubts of the story that hold against every other reader's answer, too."""


def _refuse_contradicted(text: str, given: Fraction, *, chosen: bool) -> None:
    """Raises Declined where the story beside an expression that is given asks for another.

    Where there are choices to hold the value against, it need not be read.
    """
    if not (beside := story_beside(text)):
        return
    try:
        told = read_story(tell(beside), beside).value
    except Declined as declined:
        if chosen:
            return
        raise unsure(text, "the words beside the expression are not read") from declined
    if told != given:
        raise unsure(text, "the words ask for something else than the expression says")


def read_story(story: Story, text: str) -> Understood:
    """The one reading of a story. Raises Declined with what would settle it."""
    tried = [(s, a) for s in (story, *derived(story)) for row in ROWS for a in row(s)]
    sure = [(s, a) for s, a in tried if not why_not(s, a)]
    values = {answer.value for _, answer in sure}
    if len(values) != 1:
        lines = list(dict.fromkeys(write(a.tree) for _, a in sure))
        raise unsure(text, _reason(len(values), tried), lines)
    return from_answer(text, *_most_told(sure))


def _most_told(sure: Sequence[tuple[Story, Answer]]) -> tuple[Story, Answer]:
    """Of answers that say the same, the one that tells most of the steps on the way."""
    first = sure[0][1]
    same = (first.situation, first.unknown, first.tree)
    alike = [each for each in sure if (each[1].situation, each[1].unknown, each[1].tree) == same]
    return max(alike, key=lambda each: sum(isinstance(q.tree, Op) for q in each[1].used))


def _reason(values: int, tried: Sequence[tuple[Story, Answer]]) -> str:
    """Why no reading stands."""
    if values:
        return _SEVERAL
    if not tried:
        return "I am not sure how they go together"
    return f"I am not sure how they go together: {told_plainly(why_not(*tried[0]))}"
