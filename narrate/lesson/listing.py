"""Lists of multiples told: each by itself, and the number that they share."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from narrate.exact.spoken import pieces_name
from narrate.lesson.shows import Multiples, Show
from narrate.lesson.solved import SolvedPart
from narrate.lesson.wording import TIGHT
from narrate.solution.steps import MultiplesList, Step

Said = tuple[str, dict[str, Any]]

LONGEST_LIST, LONGEST_BRIEF_LIST = 7, 5
"""So many multiples are said one by one, and so many where time is short."""

FIRST_MULTIPLES = 3
"""So many multiples of a longer list are said before "and so on"; the page shows them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One moment of a step: the templates to say it by, with their details, and what it shows.

    `goes_on` says that the next moment belongs to the same step: no new step begins after it.
    """

    name: str
    said: tuple[Said, ...]
    shows: tuple[Show, ...] = field(default=())
    goes_on: bool = False


def listed(step: Step, solved: SolvedPart, brief: int) -> Iterator[Moment]:
    """Each list by itself, number by number; then, as a moment of its own, the number they share.

    A brief telling says the first list, and that its last number is a multiple of the others too;
    the page shows every list. Where the first denominator is a multiple of the others by itself,
    that is asked and answered.
    """
    largest, *others = [each.of for each in step.lists] if len(step.lists) > 1 else _alone(step)
    shows = tuple(Multiples(of=each.of, values=each.values) for each in step.lists)
    shared = _details(step, solved, tuple(others))
    counted = _counted(step.lists[0], brief)
    if len(shows) > 1 and len(step.lists[0].values) == 1:
        yield from _one_serves(step, shows, largest, shared, brief)
    elif brief == TIGHT:
        tight = ("multiples of the largest/tight", shared | {"of": largest})
        yield Moment(name="multiples", said=(tight,), shows=shows)
    elif brief or len(shows) == 1:
        meets = ("multiples of the largest", shared)
        yield Moment(name="multiples", said=(counted, meets), shows=shows)
    else:
        for each, show in zip(step.lists, shows, strict=True):
            said = (_counted(each, brief),)
            yield Moment(name="multiples", said=said, shows=(show,), goes_on=True)
        yield Moment(name="multiples", said=((step.move, dict(step.details)),))


def _alone(step: Step) -> tuple[int, ...]:
    """The denominators of a step that lists the multiples of the largest alone."""
    largest, others = step.details["largest"], step.details["others"]
    assert isinstance(largest, int)
    assert isinstance(others, tuple)
    return (largest, *(n for n in others if isinstance(n, int)))


def _one_serves(
    step: Step, shows: tuple[Multiples, ...], largest: int, shared: dict[str, Any], brief: int
) -> Iterator[Moment]:
    """The largest denominator is a multiple of the others."""
    if brief:
        yield Moment(name="multiples", said=(("larger", shared),), shows=shows)
        return
    asked = ("multiples of/first", {"of": largest, "others": shared["others"]})
    yield Moment(name="multiples", said=(asked,), shows=shows[:1], goes_on=True)
    for each, show in zip(step.lists[1:], shows[1:], strict=True):
        said: tuple[Said, ...] = (_counted(each, brief),)
        if show is shows[-1]:
            said = (*said, ("larger", shared))
        yield Moment(name="multiples", said=said, shows=(show,), goes_on=show is not shows[-1])


def _details(step: Step, solved: SolvedPart, others: tuple[int, ...]) -> dict[str, Any]:
    named = tuple(pieces_name(n, 1, solved.language) for n in others)
    return {"size": step.details["size"], "others": others, "others_named": named}


def _counted(listed: MultiplesList, brief: int) -> Said:
    """A list of multiples, or how a long one begins and where it ends."""
    values = listed.values
    if len(values) <= (LONGEST_BRIEF_LIST if brief else LONGEST_LIST):
        return "multiples of", {"of": listed.of, "values": values}
    said = values[:FIRST_MULTIPLES]
    return "multiples of/on", {"of": listed.of, "values": said, "last": values[-1]}
