"""What a teacher writes, read and checked: reviews, items, parts, choices and boxes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Literal

from narrate.errors import Place
from narrate.exact.tree import Expr, Writing

Box = Literal["number", "whole", "numerator", "denominator"]
Way = Literal["multiples", "product", "larger", "improper", "mixed", "reciprocal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One answer choice. `tree` is None for a sentence; `unit` is what follows a number."""

    letter: str
    text: str
    tree: Writing | None
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StripGiven:
    """The fraction-strip diagram printed with an item: `wholes` wholes, each cut in `parts`."""

    wholes: int
    parts: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureGiven:
    """The teacher's own picture printed with an item: `data` as the file holds it.

    `width` and `height` are in pixels; `alt` says in words what is to be seen.
    """

    data: bytes
    kind: Literal["png", "jpeg"]
    width: int
    height: int
    alt: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stimulus:
    """What the parts of an item share: a text, a diagram, a picture, or some of them."""

    text: str = ""
    diagram: StripGiven | None = None
    picture: PictureGiven | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One moment of a part told by hand; "" where nothing is said or shown.

    `wait_ms` is the silence after it, None where it is the usual.
    """

    say: str = ""
    show: str = ""
    wait_ms: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One question of an item. `number` counts from 1; `places` are those of its keys."""

    number: int
    ask: str
    choices: tuple[Choice, ...] = ()
    boxes: tuple[Box, ...] = ()
    unit: str = ""
    select_all: bool = False
    simplest: bool = False
    key: tuple[str, ...] = ()
    model: Writing | None = None
    claim: Expr | None = None
    ways: tuple[Way, ...] = ()
    told: tuple[Moment, ...] = ()
    """How the teacher tells it herself; empty where it is solved."""
    counts: Mapping[str, int] = field(default_factory=dict, hash=False)
    """How many pupils chose each choice; empty where that is not known."""
    place: Place
    places: Mapping[str, Place] = field(default_factory=dict, hash=False)

    def at(self, key: str) -> Place:
        """The place of one of its keys in the file, of the part where it has no such key."""
        return self.places.get(key, self.place)


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One test item. An item without `parts` in its file has one part that asks its stem.

    Where the file gives both a stem and parts, the stem is the stimulus text.
    """

    id: str
    label: str
    standard: str
    grade: int
    stimulus: Stimulus | None
    parts: tuple[Part, ...]
    place: Place
    skip: bool = False
    hold_until: date | None = None
    """The day from which catch-up decks may hold it; before, it is still in use as a test."""
    parts_in_all: int = 0
    """How many parts its file gives it, where only some of them are here."""

    @property
    def lettered(self) -> bool:
        """Whether its parts are told apart by letters."""
        return max(len(self.parts), self.parts_in_all) > 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Review:
    """A set of items made into one video. `id` is the name of its folder."""

    id: str
    title: str
    grade: int
    language: str
    items: tuple[Item, ...]

    @property
    def file(self) -> Path:
        """The file it was read from."""
        return Path(self.items[0].place.file)
