"""Questions that demand more than the value of an expression, each read by its own reader."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from narrate.items.item import Item, Part
from narrate.reading.nearest import rounded_reading
from narrate.reading.quotients import with_remainder
from narrate.reading.reading import Reading
from narrate.reading.tellings import stimulus_of
from narrate.reading.words.understood import Marked, Understood

Read = Callable[[Item, Part], Reading]


def demanded(item: Item, part: Part, read: Read) -> Reading | None:
    """The reading of a part that demands more than a value, None where it does not.

    `read` reads what such a question leaves when its demand is taken away. Raises Declined where
    what is demanded is not certain.
    """
    return with_remainder(item, part, read) or rounded_reading(item, part, read)


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
        demand=demand.said,
    )


def _marks(item: Item, reading: Reading) -> Iterator[Marked]:
    shared = stimulus_of(item)
    for told in reading.tellings:
        at = len(shared) + 1 if shared and told.source == "ask" else 0
        yield Marked(start=told.start + at, end=told.end + at, role=told.role, text=told.text)
