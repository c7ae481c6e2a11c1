"""Questions that demand more than the value of an expression, each read by its own reader."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.items.item import Item, Part
from narrate.reading.clock_times import clock_reading, on_the_clock
from narrate.reading.conversions import converted_reading
from narrate.reading.demands import InRatio, InTwoUnits, OnTheClock, Remainder
from narrate.reading.demands_said import said, says_all
from narrate.reading.estimated import estimated_reading
from narrate.reading.estimated_stories import estimated_story
from narrate.reading.judged import judged_reading
from narrate.reading.named import named_reading
from narrate.reading.nearest import rounded_reading
from narrate.reading.quotients import by_told, with_remainder
from narrate.reading.ratios import as_ratios, ratio_reading
from narrate.reading.reading import Reading, Telling
from narrate.reading.story_equations import equation_of_story
from narrate.reading.tellings import stimulus_of
from narrate.reading.tested.read import tested_reading
from narrate.reading.two_units import in_two_units, two_units_reading
from narrate.reading.words.last_question import last_question
from narrate.reading.words.understood import Marked, Understood

Read = Callable[[Item, Part], Reading]


def demanded(item: Item, part: Part, read: Read) -> Reading | None:
    """The reading of a part that demands more than a value, None where it does not.

    `read` reads what such a question leaves when its demand is taken away. Raises Declined where
    what is demanded is not certain.
    """
    found = (
        tested_reading(item, part)
        or equation_of_story(item, part)
        or with_remainder(item, part, read)
        or clock_reading(item, part)
        or ratio_reading(item, part)
        or two_units_reading(item, part, read)
        or judged_reading(item, part)
        or converted_reading(item, part)
        or named_reading(item, part)
        or estimated_reading(item, part)
        or _rounded_alone(item, part, read)
        or estimated_story(item, part, read)
        or rounded_reading(item, part, read)
    )
    if found is None:
        return None
    _refuse_no_choice(part, found)
    return replace(found, tellings=tuple(_apart(found.tellings)))


def told_by(part: Part, reading: Reading) -> Part:
    """The part whose choices have the value that they have where such a thing is demanded."""
    match reading.goal.demand:
        case Remainder(by=by):
            return by_told(part, by)
        case InTwoUnits(large=large, small=small):
            return in_two_units(part, large, small)
        case InRatio():
            return as_ratios(part)
        case OnTheClock(name=way):
            return on_the_clock(part, way, reading.expression)
        case _:
            return part


def _rounded_alone(item: Item, part: Part, read: Read) -> Reading | None:
    """The last sentence of a question, where it asks for its number rounded all by itself."""
    asked = last_question(part.ask)
    start = len(part.ask) - len(asked)
    if not start or not part.ask.endswith(asked) or stimulus_of(item) or "round" not in asked:
        return None
    found = rounded_reading(item, replace(part, ask=asked), read)
    if found is None:
        return None
    moved = (replace(t, start=t.start + start, end=t.end + start) for t in found.tellings)
    return replace(found, tellings=tuple(moved))


def _refuse_no_choice(part: Part, found: Reading) -> None:
    """Raises Declined where the answer is no choice, so that the reading is doubted."""
    choices = told_by(part, found).choices
    if part.model is not None or not choices or found.goal.form == "tested":
        return
    if not any(found.goal.accepts(choice.tree) for choice in choices):
        raise Declined(
            f"I read {write(found.expression)}, {_said(found)}, but no choice is that",
            "correct the choices, or add a `model:` line that says what to work out",
        )


def _said(found: Reading) -> str:
    assert found.goal.demand is not None
    return said(found.goal.demand)


def _apart(told: Sequence[Telling]) -> Iterator[Telling]:
    """Telling phrases without the amounts of the question, which is marked as a whole."""
    asked = [each for each in told if each.role == "unknown"]
    for each in told:
        inside = any(
            a.source == each.source and a.start <= each.start and each.end <= a.end for a in asked
        )
        if each.role != "amount" or not inside:
            yield each


def as_understood(item: Item, reading: Reading) -> Understood:
    """Such a reading as `narrate read` tells it."""
    demand = reading.goal.demand
    assert demand is not None
    return Understood(
        value=reading.goal.answer,
        expression=reading.expression,
        unit=reading.unit,
        marks=tuple(_marks(item, reading)),
        why="the question names what it wants",
        money=reading.money,
        counted=reading.counted,
        demand=said(demand),
        asked_for=says_all(demand),
    )


def _marks(item: Item, reading: Reading) -> Iterator[Marked]:
    shared = stimulus_of(item)
    for told in reading.tellings:
        at = len(shared) + 1 if shared and told.source == "ask" else 0
        yield Marked(start=told.start + at, end=told.end + at, role=told.role, text=told.text)
