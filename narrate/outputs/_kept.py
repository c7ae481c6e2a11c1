"""Slides kept between decks that have pages in common: a page is written and looked over once.

A slide's XML is its page's, but for the number it bears. Where slides run by themselves they hold
times of one deck, and in a flat deck pages are cut anew, so neither is kept.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from narrate.lesson.marks import Page

PLACE = 987_654_321
"""The number that a kept slide bears until it is put in a deck; no deck has as many slides."""


@dataclass(slots=True)
class Kept:
    """The slides of the decks written so far.

    A page is known by its marks, as the very objects: pages put together anew have the same ones.
    They are held here, so that no other object can come to have their identity.
    """

    _slides: dict[tuple[int, int, int], tuple[Page, str]] = field(default_factory=dict)

    def slide(self, page: Page, number: int, make: Callable[[int], str]) -> tuple[str, bool]:
        """The XML of a page's slide under its number, and whether it was made just now."""
        key = id(page.heading), id(page.base), id(page.builds)
        known = key in self._slides
        if not known:
            self._slides[key] = page, make(PLACE)
        return self._slides[key][1].replace(str(PLACE), str(number)), not known
