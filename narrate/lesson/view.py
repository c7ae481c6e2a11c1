"""What the pages of a part are made from: the item as printed, and what is told."""

from __future__ import annotations

from dataclasses import dataclass

from narrate.items.item import Box, PictureGiven, StripGiven
from narrate.lesson.lesson import Beat
from narrate.lesson.shows import Show


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceShown:
    """An answer choice as printed: `text` may be a number, an expression or a sentence."""

    letter: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartView:
    """What a part's pages need of the item.

    `label` is its heading ("Question 2, part A"); `stimulus` and `ask` are the item's own words.
    """

    label: str
    ask: str
    stimulus: str = ""
    choices: tuple[ChoiceShown, ...] = ()
    boxes: tuple[Box, ...] = ()
    unit: str = ""
    strip: StripGiven | None = None
    picture: PictureGiven | None = None
    language: str = "en"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A beat and what it shows."""

    beat: Beat
    shows: tuple[Show, ...] = ()
