"""How many choices are to be marked where a question names it: Select TWO expressions."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from narrate.items.item import Part
from narrate.reading.reading import Telling

_COUNTED = re.compile(
    r"\b(?:select|choose|mark|check|circle|pick)(?: the)? (?P<count>two|three|four|2|3|4)"
    r"(?= (?!(?:more|less|fewer|times|out)\b)[a-z])",
    re.IGNORECASE,
)
_COUNTS = {"two": 2, "three": 3, "four": 4, "2": 2, "3": 3, "4": 4}


def to_mark(part: Part) -> int | None:
    """How many choices the words say are to be marked, None where they do not say."""
    found = _COUNTED.search(part.ask) if part.select_all else None
    return None if found is None else _COUNTS[found["count"].lower()]


def ended_at_words(part: Part, tellings: Iterable[Telling]) -> tuple[Telling, ...]:
    """The tellings of a part that was read with "all", with the whole word of its count."""
    found = _COUNTED.search(part.ask) if part.select_all else None
    made = tuple(tellings)
    if found is None:
        return made
    start, end = found.start(), found.end("count")
    return tuple(
        replace(telling, end=end, text=part.ask[start:end])
        if telling.source == "ask" and telling.start == start and telling.end < end
        else telling
        for telling in made
    )


def as_all(part: Part) -> Part:
    """The part with "all" in place of how many choices are to be marked, at the same places.

    That there are so many is held against the key that is found.
    """
    found = _COUNTED.search(part.ask) if part.select_all else None
    if found is None:
        return part
    start, end = found.span("count")
    said = "all".ljust(end - start) if end - start > 2 else found["count"]
    verb = re.sub(
        r"^\w+", lambda m: "select" if len(m[0]) == 6 else m[0], found[0][: start - found.start()]
    )
    ask = part.ask[: found.start()] + verb + said + part.ask[end:]
    return replace(part, ask=ask)
