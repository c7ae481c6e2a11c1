"""What stays in its place on all work pages of a part: stem, picture, answer, and the work zone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from narrate.items.item import PictureGiven
from narrate.lesson import answers, atoms, picture
from narrate.lesson.block import Area, area
from narrate.lesson.boxes import Boxes, answer_boxes
from narrate.lesson.frame import BOTTOM, MARGIN, TOP, WIDTH
from narrate.lesson.marks import Group
from narrate.lesson.shows import (
    FillBoxes,
    Show,
    StemMark,
    Strike,
)
from narrate.lesson.stem import Stem, strips
from narrate.lesson.view import PartView, Told
from narrate.reading.words.lexicon import one

HEADING = 2_000
STEM = TOP + HEADING * 13 // 10
GUTTER, BOXES_GUTTER = 2_600, 3_800
BOX_SIZE = 3_600


@dataclass(frozen=True, slots=True)
class WorkFrame:
    """What stays in its place on all work pages of a part."""

    stem: Stem
    picture: Group | None
    column: answers.Column | None
    boxes: Boxes | None
    zone: Area

    @property
    def fits(self) -> bool:
        """Whether the answer ends above the captions' room."""
        return self.answer_bottom <= BOTTOM

    @property
    def roomy(self) -> bool:
        """Whether the choices leave the work its room."""
        return self.column is None or self.column.width <= answers.ROOMY

    @property
    def answer_bottom(self) -> int:
        """The lower edge of the choices or boxes."""
        if self.column is not None:
            return self.zone.y + self.column.height
        return self.boxes.room.bottom if self.boxes is not None else self.zone.y

    @property
    def right_bottom(self) -> int:
        """From there on down the page is free to its right edge."""
        aside = area(self.picture.marks[0]).bottom if self.picture is not None else 0
        return max(self.answer_bottom, aside)


def work_frame(view: PartView, told: Sequence[Told]) -> WorkFrame:
    """The frame with as much of the stem in sight as leaves room for the choices."""
    shows = [show for each in told for show in each.shows]
    marks = [show for show in shows if isinstance(show, StemMark)]
    frames: list[WorkFrame] = []
    for stem in strips(view, marks, MARGIN, STEM, _stem_width(view)):
        if frames and not all(stem.stretches(mark) for mark in marks):
            break  # A stem without its marks comes after a narrow work zone.
        frames.append(_under(stem, view, shows))
        if frames[-1].fits and frames[-1].roomy:
            return frames[-1]
    return _first_fitting(frames) or _last_resort(view, shows, marks)


def _first_fitting(frames: Sequence[WorkFrame]) -> WorkFrame | None:
    return next((frame for frame in frames if frame.fits), None)


def _last_resort(view: PartView, shows: Sequence[Show], marks: Sequence[StemMark]) -> WorkFrame:
    """The first stem, marks or no marks, that leaves room for the choices; else the shortest."""
    stems = strips(view, marks, MARGIN, STEM, _stem_width(view))
    frames = [_under(stem, view, shows) for stem in stems]
    return _first_fitting(frames) or frames[-1]


def _stem_width(view: PartView) -> int:
    """How wide the stem may be: the page, less the picture that stays in sight beside it."""
    small = small_picture(view)
    return WIDTH if small is None else area(small.marks[0]).x - GUTTER - MARGIN


def small_picture(view: PartView) -> Group | None:
    """A wide picture, beside the stem."""
    if view.picture is None or not picture.is_wide(view.picture):
        return None
    return picture.at_right(view.picture, TOP, picture.SMALL_WIDTH, picture.SMALL_HEIGHT)


def _under(stem: Stem, view: PartView, shows: Sequence[Show]) -> WorkFrame:
    """The frame under a stem: the answer at the right, the work zone in what is left."""
    small = small_picture(view)
    above = max([stem.bottom, *([area(small.marks[0]).bottom] if small is not None else [])])
    top = above + 1_500
    right, column, boxes = MARGIN + WIDTH, None, None
    if view.choices:
        reasons = {show.letter: show.reason for show in shows if isinstance(show, Strike)}
        column = answers.column(view.choices, reasons, right, top, BOTTOM - top)
        right -= column.width + GUTTER
    elif view.boxes:
        boxes = _boxes(view, shows, right, top)
        right = boxes.room.x - BOXES_GUTTER
    if view.picture is not None and small is None:
        small = _aside(view.picture, right, top, boxes)
        right = min(right, area(small.marks[0]).x - GUTTER)
    return WorkFrame(stem, small, column, boxes, Area(MARGIN, top, right - MARGIN, BOTTOM - top))


def _aside(given: PictureGiven, right: int, top: int, boxes: Boxes | None) -> Group:
    """A picture that is not wide: under the boxes, or left of the answer and beside the work.

    One higher than wide would be small under the boxes.
    """
    if boxes is not None and given.width >= given.height:
        y = boxes.room.bottom + 1_800
        if BOTTOM - y >= picture.LEAST_ASIDE:
            top, right = y, MARGIN + WIDTH
    room = min(BOTTOM - top, picture.ASIDE_HEIGHT)
    across, tall = picture.size(given, picture.ASIDE_WIDTH, max(100, room))
    return picture.group(given, right - across, top, across, tall)


def _boxes(view: PartView, shows: Sequence[Show], right: int, top: int) -> Boxes:
    """Boxes at the right edge, wide enough for the digits that will come.

    A unit of many things is not written beside a one.
    """
    digits = next((show.digits for show in shows if isinstance(show, FillBoxes)), ())
    size, unit = BOX_SIZE, view.unit
    if single := digits == ("1",) and len(unit.split()) == 1:
        unit = one(unit)
    while True:
        trial = answer_boxes(view.boxes, digits, unit, size, 0, top)
        if trial.room.width <= WIDTH // 2 or size <= atoms.SMALLEST:
            break
        size -= 200
    left = right - trial.room.width
    made = answer_boxes(view.boxes, digits, unit, size, left, top)
    return replace(made, late=single and unit != view.unit)
