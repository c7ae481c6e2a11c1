"""The same lesson with its work left out: empty lines to write on by hand.

Stem, choices and drawings stay, so do the slides and what is said. Lines of work and lists come as
empty lines at their beats; what is written into the answer boxes is left to the teacher.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrate.lesson.block import Area, area
from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import PAGE_WIDTH, Group, Page, Plain, Rule
from narrate.lesson.templates import labels

_WORK = re.compile(r"(line|kept|multiples of) ")
"""Work by the names that `alt.py` gives: an empty line comes in its place."""

_WRITTEN = re.compile(r"(ring \S+ in multiples of|answer(?! boxes$)) ?")
"""What is written on the work or the answer: nothing comes in its place."""

SHORTEST = 24_000
"""A line shorter than 240 points is too short to write on by hand (no source)."""

GAP = 1_800
"""Between a line and what stands beside it."""

RIGHT = PAGE_WIDTH - 3_600
WEIGHT = 125


def without_work(lesson: Lesson) -> Lesson:
    """The lesson with empty lines for its work; beats, and the number of pages, stay."""
    items = {beat.id for beat in lesson.beats if beat.item}
    said = labels("shapes", lesson.language)["empty_line"]
    pages = tuple(_blank(page, said) if set(page.beats) & items else page for page in lesson.pages)
    return replace(lesson, pages=pages)


def _blank(page: Page, said: str) -> Page:
    groups = [*page.base, *(build.group for build in page.builds)]
    written = [group for group in groups if _WORK.match(group.name)]
    work = [_around(group.marks) for group in written]
    others = [area(m) for g in groups if not _WORK.match(g.name) for m in g.marks]
    kinds = [group.name.partition(" ")[0] for group in written]
    lines = iter(_spread(_evened(_lengthened(work, kinds, others), kinds), kinds, others))
    numbers = iter(range(1, len(work) + 1))

    def left(group: Group) -> Group | None:
        if _WORK.match(group.name):
            return _line(next(lines), next(numbers), said)
        return None if _WRITTEN.match(group.name) else group

    base = tuple(kept for group in page.base if (kept := left(group)))
    builds = tuple(
        replace(build, group=kept) for build in page.builds if (kept := left(build.group))
    )
    return replace(page, base=base, builds=builds)


def _lengthened(work: list[Area], kinds: list[str], others: list[Area]) -> list[Area]:
    """The areas of the work, long enough to write on where there is room; a kind has one edge."""
    found = []
    for own, kind in zip(work, kinds, strict=True):
        mine = [work[at] for at in _of_kind(kinds, kind)]
        left, right = min(each.x for each in mine), max(each.right for each in mine)
        end = min(RIGHT, max(right, own.x + SHORTEST))
        found.append(_longest(own, left, end, [*work, *others]))
    return found


def _of_kind(kinds: Sequence[str], kind: str) -> list[int]:
    return [at for at, each in enumerate(kinds) if each == kind]


def _evened(lines: Sequence[Area], kinds: Sequence[str]) -> list[Area]:
    """The lines of each kind with one right edge, where they stay long enough."""
    found = list(lines)
    for kind in dict.fromkeys(kinds):
        places = _of_kind(kinds, kind)
        right = min(lines[at].right for at in places)
        if all(right - lines[at].x >= SHORTEST for at in places):
            for at in places:
                found[at] = replace(lines[at], width=right - lines[at].x)
    return found


def _spread(lines: list[Area], kinds: Sequence[str], others: Sequence[Area]) -> list[Area]:
    """The lines of each kind at one distance, where nothing that stays is in the way."""
    found = list(lines)
    for kind in dict.fromkeys(kinds):
        places = _of_kind(kinds, kind)
        mine = [lines[at] for at in places]
        first, last = mine[0].bottom, mine[-1].bottom
        moved = [
            replace(own, y=first + (last - first) * n // max(1, len(mine) - 1) - own.height)
            for n, own in enumerate(mine)
        ]
        if not any(own.meets(other) for own in moved for other in others):
            for at, own in zip(places, moved, strict=True):
                found[at] = own
    return found


def _longest(own: Area, left: int, right: int, others: Sequence[Area]) -> Area:
    before = Area(left, own.y, max(0, own.x - left), own.height)
    after = Area(own.right, own.y, max(0, right - own.right), own.height)
    starts = [o.right + GAP for o in others if o.right <= own.x and o.meets(before)]
    ends = [o.x - GAP for o in others if o.x >= own.right and o.meets(after)]
    start = min(own.x, max([before.x, *starts]))
    end = max(own.right, min([after.right, *ends]))
    return replace(own, x=start, width=end - start)


def _line(where: Area, number: int, said: str) -> Group:
    """A line under the room that the work would take."""
    rule = Rule(
        x1=where.x,
        y1=where.bottom,
        x2=where.right,
        y2=where.bottom,
        weight=WEIGHT,
        colour="quiet",
    )
    return Group(name=f"empty line {number}", alt=said, marks=(rule,))


def _around(marks: tuple[Plain, ...]) -> Area:
    areas = [area(mark) for mark in marks]
    left, top = min(each.x for each in areas), min(each.y for each in areas)
    right, bottom = max(each.right for each in areas), max(each.bottom for each in areas)
    return Area(left, top, right - left, bottom - top)
