"""Pages as the slides of a deck: each page one slide, or each of its builds one.

A flat deck is for programs and tablets that ignore animations: every state of a page is a slide,
with what is said while it is seen.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby

from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import Group, Page
from narrate.outputs._options import Options


def sheets(lesson: Lesson, options: Options) -> tuple[Page, ...]:
    """The slides of the lesson's deck, as pages; in a flat deck a beat may be on more than one."""
    if options.builds != "flat":
        return lesson.pages
    return tuple(sheet for page in lesson.pages for sheet in states(page))


def sheet_numbers(lesson: Lesson, options: Options) -> dict[str, int]:
    """For each beat its slide, from 1: in a flat deck the one that shows all its builds."""
    pages = enumerate(sheets(lesson, options), start=1)
    return {beat: number for number, page in pages for beat in page.beats}


def states(page: Page) -> Iterator[Page]:
    """A page without builds for each state of it that is seen, each with the beats told on it.

    One for each build; and one before them where something is told before the first.
    """
    builds = {beat: list(found) for beat, found in groupby(page.builds, key=lambda b: b.beat)}
    shown: list[Group] = list(page.base)
    told: list[str] = []
    for beat in page.beats:
        for build in builds.get(beat, ()):
            if told:
                yield _state(page, shown, told)
            shown.append(build.group)
            told = [beat]
        if beat not in builds:
            told.append(beat)
    yield _state(page, shown, told)


def _state(page: Page, shown: list[Group], told: list[str]) -> Page:
    return replace(page, base=tuple(shown), builds=(), beats=tuple(told))
