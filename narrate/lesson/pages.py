"""Pages of a part: the item large, then as many work pages as the telling asks for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from narrate.lesson import atoms, measure
from narrate.lesson.checking import overlaps
from narrate.lesson.itempage import item_pages
from narrate.lesson.marks import Group, Page, Text
from narrate.lesson.shows import PauseSign, StemMark, Takeaway
from narrate.lesson.view import ChoiceShown, PartView, Told
from narrate.lesson.workpage import WorkPages

__all__ = [
    "ChoiceShown",
    "PartView",
    "Told",
    "closing_page",
    "overlaps",
    "part_pages",
    "title_page",
]


def part_pages(view: PartView, told: Sequence[Told]) -> tuple[Page, ...]:
    """All pages of a part: every beat is on exactly one, every build comes in beat order."""
    leading = _leading(told)
    first = item_pages(view, told[:leading])
    return (*first, *WorkPages(view, told).pages(leading, number=len(first) + 1))


def _leading(told: Sequence[Told]) -> int:
    """How many beats are told on the item itself: those that show nothing but marks on it."""
    for at, each in enumerate(told):
        if not all(isinstance(show, StemMark | PauseSign) for show in each.shows):
            return max(1, at)
    return len(told)


def title_page(title: str, subtitle: str, told: Sequence[Told]) -> Page:
    """The first page: the review's title, and what it is about."""
    return _words_page(title, [subtitle] if subtitle else [], told, y=15_000, size=5_400)


def closing_page(title: str, lines: Sequence[str], told: Sequence[Told]) -> Page:
    """The last page."""
    return _words_page(title, lines, told, y=8_000, size=3_600)


def _words_page(title: str, lines: Sequence[str], told: Sequence[Told], y: int, size: int) -> Page:
    left, width = 7_200, 96_000 - 2 * 7_200
    heading = _block_text(title, size, left, y, width, bold=True)
    y = heading.y + heading.height + 1_600
    groups: list[Group] = []
    for number, line in enumerate(_all_lines(lines, told), start=1):
        text = _block_text(line, 2_800, left, y, width)
        groups.append(Group(name=f"line {number}", alt=line, marks=(text,)))
        y += text.height + 1_000
    beats = tuple(each.beat.id for each in told)
    return Page(title=title, heading=heading, base=tuple(groups), builds=(), beats=beats)


def _all_lines(lines: Iterable[str], told: Sequence[Told]) -> Iterable[str]:
    yield from lines
    yield from (show.text for each in told for show in each.shows if isinstance(show, Takeaway))


def _block_text(text: str, size: int, x: int, y: int, width: int, *, bold: bool = False) -> Text:
    lines = measure.wrap(text, size, width, bold=bold) or (" ",)
    while size > atoms.SMALLEST and len(lines) > 3:
        size -= 400
        lines = measure.wrap(text, size, width, bold=bold)
    leading = size * 5 // 4
    return Text(
        x=x,
        y=y,
        width=max(measure.box_width(line, size, bold=bold) for line in lines),
        height=measure.text_height(len(lines), size, leading),
        lines=lines,
        size=size,
        leading=leading,
        bold=bold,
    )
