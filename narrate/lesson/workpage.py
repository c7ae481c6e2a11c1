"""Work pages: the stem in sight at the top, the answer at the right, the work in between.

The frame is fixed for a part, so that nothing jumps at a page turn. A page takes as many beats as
its work zone holds; its base carries the state over: the last line of work, marks made so far,
struck choices, filled boxes, and the figures that get another layer on it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field

from narrate.exact.tree import Writing
from narrate.lesson import atoms
from narrate.lesson.arrange import IN_ZONE, Arranged, Content, When, arrange, crowded, is_sparse
from narrate.lesson.block import area
from narrate.lesson.effects import effect_of
from narrate.lesson.frame import MARGIN, WIDTH, Sheet, heading
from narrate.lesson.itempage import pause_sign
from narrate.lesson.marks import Group, Page, Rule
from narrate.lesson.shows import (
    Choose,
    Draw,
    FillBoxes,
    Line,
    Multiples,
    PauseSign,
    Show,
    StemMark,
    Strike,
)
from narrate.lesson.stem import mark_group
from narrate.lesson.view import PartView, Told
from narrate.lesson.workframe import GUTTER, HEADING, WorkFrame, small_picture, work_frame
from narrate.lesson.workzone import LARGE, MATHS, results

SIZES = (3_600, 3_200, 2_800, 2_400, 2_000, 1_800)
"""Sizes tried for a beat that is too large for a page."""


@dataclass(slots=True)
class WorkPages:
    """The work pages of one part."""

    view: PartView
    told: Sequence[Told]
    frame: WorkFrame = field(init=False)
    starts: list[int] = field(default_factory=list)
    _left: dict[int, tuple[Writing, ...]] = field(init=False, default_factory=dict)
    _held: dict[int, int] = field(init=False, default_factory=dict)
    size: int = MATHS[0]

    def __post_init__(self) -> None:
        self.frame = work_frame(self.view, self.told)

    def pages(self, first: int, number: int) -> Iterator[Page]:
        """The pages that tell the beats from `first` on, the first of them the `number`th.

        The mathematics is as large as it can be without another page for it.
        """
        self.size, smaller = MATHS
        self._held.clear()
        cut = self._cut(first)
        if not all(self._full(start, end + 1) for start, end in cut[:-1]):
            self.size = smaller
            other = self._cut(first)
            if len(other) < len(cut):
                cut = other
            else:
                self.size = MATHS[0]
        for start, end in cut:
            yield self.page(start, end, number)
            number += 1

    def _full(self, start: int, end: int) -> bool:
        """Whether these beats have more lines of work than a page should hold, at any size."""
        return crowded(self._content(start, end), self.frame.zone.width)

    def _cut(self, first: int) -> list[tuple[int, int]]:
        """The beats from `first` on, cut into pages."""
        found: list[tuple[int, int]] = []
        while first < len(self.told):
            end = self.longest(first)
            found.append((first, end))
            first = end
        return self._with_work(found)

    def _with_work(self, cut: list[tuple[int, int]]) -> list[tuple[int, int]]:
        """The pages, the last of them with a line of work on it: no page for a sentence alone."""
        if len(cut) < 2:
            return cut
        *others, (before, start), (_, end) = cut
        lines = [at for at in range(before, start) if any(self._lines(at, at + 1))]
        if any(self._lines(start, end)) or len(lines) < 2:
            return cut
        if self._arranged(lines[-1], end) is None:
            return cut
        return [*others, (before, lines[-1]), (lines[-1], end)]

    def _shows(self, start: int, end: int) -> Iterator[tuple[tuple[int, int], Show]]:
        for at in range(start, end):
            for number, show in enumerate(self.told[at].shows):
                yield (at, number), show

    def longest(self, start: int) -> int:
        """The end of the longest run of beats from `start` that one page holds; one at least.

        What a page held at a larger size it holds at a smaller one. Most parts need one page, so
        all of them is tried first.
        """
        if self._arranged(start, len(self.told)) is not None:
            self._held[start] = len(self.told)
            return len(self.told)
        end = self._held.get(start, start + 1)
        if end == start + 1 and self._arranged(start, end) is None:
            return end
        while end < len(self.told) and (
            not any(isinstance(show, IN_ZONE) for show in self.told[end].shows)
            or self._arranged(start, end + 1) is not None
        ):
            end += 1
        self._held[start] = end
        return self._before_lists(start, end)

    def _before_lists(self, start: int, end: int) -> int:
        """The end, moved before a run of lists that it would part: they are looked at together."""
        for run in self._runs():
            if run[0][0][0] < end <= run[-1][0][0] and run[0][0][0] > start:
                return run[0][0][0]
        return end

    def _runs(self) -> list[list[tuple[tuple[int, int], Multiples]]]:
        """The lists of multiples that come one after another, each with its place."""
        found: list[list[tuple[tuple[int, int], Multiples]]] = [[]]
        for at, show in self._shows(0, len(self.told)):
            if isinstance(show, Multiples):
                found[-1].append((at, show))
            elif found[-1]:
                found.append([])
        return [run for run in found if run]

    def _arranged(self, start: int, end: int) -> Arranged | None:
        return self._set(self._content(start, end), self.size, trial=True)

    def _wide_from(self) -> int:
        """From where on down the page is free to its right edge."""
        return self.frame.right_bottom + 600

    def _content(
        self,
        start: int,
        end: int,
        *,
        carry: bool = True,
        lists: Sequence[Multiples] = (),
        kept: Collection[str] = (),
    ) -> Content:
        content = Content(rings=self._rings(start, end))
        for at, show in self._shows(0, end):
            content.add(at if at[0] >= start else None, show)
        left = self._results(start) if carry else ()
        return content.turned(results=left, lists=lists, kept=kept)

    def _results(self, start: int) -> tuple[Writing, ...]:
        """What the lines before beat `start` leave for those after it."""
        if start not in self._left:
            before = [show.tree for show in self._lines(0, start)]
            later = [show.tree for show in self._lines(start, len(self.told))]
            self._left[start] = results(before, later)
        return self._left[start]

    def _lines(self, start: int, end: int) -> Iterator[Line]:
        for _, show in self._shows(start, end):
            if isinstance(show, Line) and not show.struck:
                yield show

    def _rings(self, start: int, end: int) -> dict[Multiples, When]:
        """When the common multiple is ringed: in all lists of a run with the last of them.

        Where the last is on a later page, each list gets its ring as it comes.
        """
        found: dict[Multiples, When] = {}
        for run in self._runs():
            last, _ = run[-1]
            for at, show in run:
                ringed = last if last[0] < end else at
                found[show] = ringed if ringed[0] >= start else None
        return found

    def _final(self, start: int, end: int) -> Arranged:
        """The page as it will be, with what there is room for of what was there before.

        That is a figure that is drawn on later, the lists of the page before, results.
        """
        before, later = self._lists_before(start), self._drawn_on_later(end)
        for lists, kept, carry in (
            (before, later, True),
            ((), later, True),
            (before, (), True),
            ((), (), True),
            ((), (), False),
        ):
            content = self._content(start, end, carry=carry, lists=lists, kept=kept)
            done = self._large(content) or self._set(content, self.size)
            if done is not None:
                return done
        return self._squeezed(start, end)

    def _large(self, content: Content) -> Arranged | None:
        """A page with little work, its mathematics larger, where that has room."""
        if self.size != MATHS[0]:
            return None
        if not is_sparse(content, self.frame.zone.width, self.view.language):
            return None
        return self._set(content, LARGE)

    def _drawn_on_later(self, end: int) -> frozenset[str]:
        """The figures that get another layer after beat `end`."""
        later = (show for _, show in self._shows(end, len(self.told)))
        return frozenset(show.layer.of for show in later if isinstance(show, Draw))

    def _lists_before(self, start: int) -> tuple[Multiples, ...]:
        """The lists that came on the page before the one that starts with beat `start`."""
        first = max((each for each in self.starts if each < start), default=start)
        return tuple(show for _, show in self._shows(first, start) if isinstance(show, Multiples))

    def _squeezed(self, start: int, end: int) -> Arranged:
        """A single beat too large for a page at full size, set smaller."""
        content = self._content(start, end, carry=False)
        for size in SIZES:
            done = self._set(content, size, squeeze=True)
            if done is not None:
                return done
        done = self._set(content, atoms.SMALLEST, squeeze=True, force=True)
        assert done is not None
        return done

    def _set(
        self,
        content: Content,
        size: int,
        *,
        squeeze: bool = False,
        force: bool = False,
        trial: bool = False,
    ) -> Arranged | None:
        return arrange(
            content,
            self.frame.zone,
            self._wide_from(),
            self.view.language,
            size=size,
            squeeze=squeeze,
            force=force,
            trial=trial,
        )

    def page(self, start: int, end: int, number: int) -> Page:
        """The page that tells beats `start` to `end`."""
        self.starts.append(start)
        sheet = Sheet()
        self._fixed(sheet)
        arranged = self._final(start, end)
        for _, show in self._shows(0, start):
            for group in self._carried(show):
                sheet.put(None, group)
        for group in arranged.base:
            sheet.put(None, group)
        for at, show in self._shows(start, end):
            beat = self.told[at[0]].beat.id
            for group in self._appearing(show):
                sheet.put(beat, group, effect_of(show))
            for group, effect, steps in arranged.builds.get(at, []):
                sheet.put(beat, group, effect, steps)
        return Page(
            title=self.view.label if number == 1 else f"{self.view.label} ({number})",
            heading=heading(self.view.label, HEADING),
            base=tuple(sheet.base),
            builds=tuple(sheet.builds),
            beats=tuple(each.beat.id for each in self.told[start:end]),
        )

    def _fixed(self, sheet: Sheet) -> None:
        stem, frame = self.frame.stem, self.frame
        y = frame.zone.y - 450  # clear of dashes under the last line of the question
        rule = Rule(x1=MARGIN, y1=y, x2=MARGIN + WIDTH, y2=y, weight=100, colour="quiet")
        text = " ".join(part for part in (self.view.stimulus, self.view.ask) if part)
        sheet.put(None, Group(name="stem", alt=text, marks=(*stem.marks(), rule)))
        if frame.picture is not None:
            sheet.put(None, frame.picture)
        if frame.column is not None:
            sheet.put(None, frame.column.base())
        if frame.boxes is not None:
            sheet.put(None, frame.boxes.base(self.view.language))

    def _carried(self, show: Show) -> list[Group]:
        """What earlier beats did to the stem and the answer."""
        return [] if isinstance(show, PauseSign) else self._appearing(show)

    def _appearing(self, show: Show) -> list[Group]:
        """What a show does to the stem or the answer; nothing for shows of the work zone."""
        frame = self.frame
        match show:
            case StemMark():
                group = mark_group((frame.stem,), show, self.view)
                return [group] if group is not None else []
            case PauseSign(words=words):
                small = small_picture(self.view)
                right = area(small.marks[0]).x - GUTTER if small is not None else MARGIN + WIDTH
                return [pause_sign(words, right)]
            case Strike(letter=letter, reason=reason) if frame.column is not None:
                return [frame.column.row(letter).strike(reason, self.view.language)]
            case Choose(letter=letter) if frame.column is not None:
                return [frame.column.row(letter).ring(self.view.language)]
            case FillBoxes(digits=digits) if frame.boxes is not None:
                return [frame.boxes.filled(digits, self.view.language)]
            case _:
                return []
