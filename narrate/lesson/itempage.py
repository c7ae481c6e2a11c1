"""The item as it stands on the pupils' paper, large: its words, diagram, choices or boxes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from narrate.exact import prose
from narrate.lesson import alt, answers, atoms, drawing, mathline, picture
from narrate.lesson.block import Block
from narrate.lesson.boxes import answer_boxes
from narrate.lesson.effects import effect_of
from narrate.lesson.frame import BOTTOM, MARGIN, WIDTH, Sheet, heading
from narrate.lesson.marks import Box, Group, Page, Path, Plain
from narrate.lesson.shows import PauseSign, StemMark
from narrate.lesson.stem import Stem, mark_group, paragraph
from narrate.lesson.view import ChoiceShown, PartView, Told
from narrate.solution.figures import Strip

FIRST = 7_200
"""Where the item's words begin, under the heading."""


@dataclass(frozen=True, slots=True)
class _Size:
    """Type sizes of an item: of its words, and of the mathematics of its answer."""

    words: int
    maths: int


SIZES = (
    _Size(4_400, 4_400),
    _Size(4_000, 4_000),
    *(_Size(words, 3_600) for words in (3_600, 3_200, 3_000, 2_800)),
    _Size(2_800, 3_200),
    _Size(2_800, 2_800),
    _Size(2_600, 3_200),
    _Size(2_400, 2_800),
    _Size(2_200, 2_400),
    _Size(2_000, 2_000),
    _Size(1_800, 1_800),
)
"""Tried in turn: words at 28 points and mathematics at 36 before anything smaller."""

LONG = SIZES[-1]
GAP = 2_000
WIDEST_GAP = 3_000
"""Room that is left is shared out between words, diagram and answer, up to this."""

CHOICE_GAP = 3_000
PICTURE_GAP = 2_600


@dataclass(frozen=True, slots=True)
class _Layout:
    """The item set at one size."""

    stems: tuple[Stem, ...]
    groups: tuple[Group, ...]
    bottom: int


def item_pages(view: PartView, told: Sequence[Told]) -> tuple[Page, ...]:
    """The item on one page; on two where its words are too many (the first beat reads them)."""
    for size in SIZES:
        layout = _set(view, size)
        if layout.bottom <= BOTTOM:
            spare = (BOTTOM - layout.bottom) // (_sections(view) + 1)
            return (_page(view, _set(view, size, min(spare, WIDEST_GAP)), told, number=1),)
    return _long(view, told)


def _sections(view: PartView) -> int:
    """How many things stand under the words."""
    return (view.strip is not None) + _is_under(view) + bool(view.choices or view.boxes)


def _page(view: PartView, layout: _Layout, told: Sequence[Told], number: int) -> Page:
    sheet = Sheet()
    for group in layout.groups:
        sheet.put(None, group)
    for each in told:
        for show in each.shows:
            match show:
                case StemMark():
                    marked = mark_group(layout.stems, show, view)
                    if marked is not None:
                        sheet.put(each.beat.id, marked, effect_of(show))
                case PauseSign(words=words):
                    sheet.put(each.beat.id, pause_sign(words), effect_of(show))
                case _:
                    pass
    return Page(
        title=view.label if number == 1 else f"{view.label} ({number})",
        heading=heading(view.label, 2_800),
        base=tuple(sheet.base),
        builds=tuple(sheet.builds),
        beats=tuple(each.beat.id for each in told),
    )


def _is_under(view: PartView) -> bool:
    """Whether there is a picture that goes under the words."""
    return view.picture is not None and picture.is_wide(view.picture)


def _beside(view: PartView) -> Group | None:
    """The picture where it stands beside the words."""
    if view.picture is None or picture.is_wide(view.picture):
        return None
    return picture.at_right(view.picture, FIRST, picture.BESIDE, BOTTOM - FIRST)


def _width(view: PartView) -> int:
    """How wide words and answer may be."""
    if view.picture is None or picture.is_wide(view.picture):
        return WIDTH
    across, _ = picture.size(view.picture, picture.BESIDE, BOTTOM - FIRST)
    return WIDTH - across - PICTURE_GAP


def _set(view: PartView, size: _Size, gap: int = 0) -> _Layout:
    """The item at one size, `gap` more than needed between words, diagram and answer."""
    stems, y = _words(view, size.words)
    if y > BOTTOM:
        return _Layout(tuple(stems), (), y)
    return _under(view, stems, size, y, gap)


def _under(view: PartView, stems: Sequence[Stem], size: _Size, y: int, gap: int = 0) -> _Layout:
    """The words with the diagram and the place for the answer under them."""
    groups = [_stem_group(view, stems)] if stems else []
    high = _picture_height(view, stems, size, y)
    if view.picture is not None and high:
        across, tall = picture.size(view.picture, WIDTH, high)
        groups.append(picture.group(view.picture, MARGIN, y + GAP // 2 + gap, across, tall))
        y += GAP + gap + tall
    if view.strip is not None:
        figure, y = _strip(view, y + GAP // 2 + gap)
        groups.append(figure)
    answer, y = _answer(view, size, y + gap)
    groups += [answer] if answer is not None else []
    beside = _beside(view)
    groups += [beside] if beside is not None else []
    return _Layout(tuple(stems), tuple(groups), y)


def _picture_height(view: PartView, stems: Sequence[Stem], size: _Size, y: int) -> int:
    """How high a picture under the words may be, 0 where there is none or no room for it.

    On a page that is full of words it takes what they leave; work pages show it in any case.
    """
    if not _is_under(view):
        return 0
    if size == LONG:
        room = BOTTOM - GAP - _under(replace(view, picture=None), stems, size, y).bottom
        return min(room, picture.UNDER_HEIGHT) if room >= picture.LEAST_HEIGHT else 0
    return picture.UNDER_HEIGHT if view.strip is None else picture.UNDER_HEIGHT * 2 // 3


def _stem_group(view: PartView, stems: Sequence[Stem]) -> Group:
    text = " ".join(part for part in (view.stimulus, view.ask) if part)
    return Group(name="stem", alt=text, marks=tuple(mark for s in stems for mark in s.marks()))


def _words(view: PartView, size: int) -> tuple[list[Stem], int]:
    y = FIRST
    stems: list[Stem] = []
    for source, text in (("stimulus", view.stimulus), ("ask", view.ask)):
        if text:
            stems.append(paragraph(text, size, MARGIN, y, _width(view), source))
            y = stems[-1].bottom + size // 2
    return stems, y


def _strip(view: PartView, y: int) -> tuple[Group, int]:
    assert view.strip is not None
    layer = Strip(of="diagram", wholes=view.strip.wholes, parts=view.strip.parts)
    wide = WIDTH if layer.wholes > 1 else WIDTH * 2 // 3
    figure = drawing.draw((layer,), min(_width(view), max(drawing.least_width((layer,)), wide)))
    name, said = alt.layer(layer, view.language)
    marks = Block(figure.width, figure.height, figure.parts[0]).at(MARGIN, y)
    return Group(name=name, alt=said, marks=marks), y + figure.height + GAP // 2


def _answer(view: PartView, size: _Size, y: int) -> tuple[Group | None, int]:
    if view.choices:
        return _choices(view, size, y + GAP // 2)
    if view.boxes:
        boxes = answer_boxes(view.boxes, (), view.unit, size.maths, MARGIN, y + GAP // 2)
        return boxes.base(view.language), boxes.room.bottom
    return None, y


def _choices(view: PartView, size: _Size, y: int) -> tuple[Group, int]:
    """Choices in as few lines as they fit in: all in one, in two columns, or one under another."""
    width = _width(view)
    blocks = [_choice(each, size, width) for each in view.choices]
    widest = max(block.width for block in blocks) + CHOICE_GAP
    ways = {len(blocks), ceil(len(blocks) / 2), 2} | ({3} if len(blocks) > 4 else set())
    for across in sorted(ways, reverse=True):
        cell = width // across
        if widest <= cell:
            return _grid(view, blocks, across, min(cell, widest + 9_000), y, size)
    group, bottom = _grid(view, blocks, 1, width, y, size)
    if bottom <= BOTTOM:
        return group, bottom
    cell = width // 2
    blocks = [_choice(each, size, cell - 1_600) for each in view.choices]
    return _grid(view, blocks, 2, cell, y, size)


def _grid(
    view: PartView, blocks: Sequence[Block], across: int, cell: int, y: int, size: _Size
) -> tuple[Group, int]:
    marks: list[Plain] = []
    gap = min(2_000, size.words * 3 // 8)
    for start in range(0, len(blocks), across):
        row = blocks[start : start + across]
        tall = max(block.height for block in row)
        for at, block in enumerate(row):
            marks += block.at(MARGIN + at * cell, y + (tall - block.height) // 2)
        y += tall + gap
    said = "; ".join(f"{each.letter}: {prose.caption_prose(each.text)}" for each in view.choices)
    return Group(name="choices", alt=f"answer choices {said}", marks=tuple(marks)), y - gap


def _choice(choice: ChoiceShown, size: _Size, width: int) -> Block:
    how = answers.choice_setting(choice.text, size.maths, min(size.words, 3_200))
    bold = atoms.Setting(size=how.size, stack=how.size, bold=True)
    edge = how.size * 3 // 2
    words = mathline.flow(atoms.words_of(choice.text, how), how, width - edge)
    body = mathline.block(words)
    base = words[0].above if words else how.size
    marked = mathline.line((atoms.word_atom(choice.letter, bold),), bold)
    return Block(edge + body.width, body.height, (*marked.marks(0, base), *body.at(edge, 0)))


def pause_sign(words: str, right: int = MARGIN + WIDTH) -> Group:
    """Our sign for "pause here and try it": an hourglass and its words, at the top right."""
    how = atoms.setting(2_200)
    text = mathline.block(mathline.flow(atoms.words_of(words, how), how, 50_000))
    tall, glass = 4_200, 1_500
    width = text.width + glass + 3_200
    left, top = right - width, 1_700
    frame = Box(
        x=left, y=top, width=width, height=tall, fill="panel", line="ink", weight=150, rounded=True
    )
    sand = _hourglass(left + 1_000, top + 900, glass, tall - 1_800)
    label = text.at(left + glass + 2_200, top + (tall - text.height) // 2)
    return Group(name="pause sign", alt=f"a sign to pause: {words}", marks=(frame, *sand, *label))


def _hourglass(x: int, y: int, width: int, height: int) -> Iterator[Plain]:
    middle = (x + width // 2, y + height // 2)
    upper, lower = ((x, y), (x + width, y)), ((x, y + height), (x + width, y + height))
    yield Path(points=(*upper, middle), closed=True, fill="paper", weight=150)
    yield Path(points=(*lower, middle), closed=True, fill="ink", weight=150)


def _long(view: PartView, told: Sequence[Told]) -> tuple[Page, ...]:
    """An item too long for one page, in the smallest size, on as many pages as it has beats for.

    The first page begins it and the last one ends it; what is between stays on the pupils' paper
    where there are too few beats, for every page needs one.
    """
    parts = _parts(view)
    if len(parts) > len(told):
        parts = [*parts[: len(told) - 1], parts[-1]] if len(told) > 1 else parts[:1]
    pages = []
    for number, stems in enumerate(parts, start=1):
        last = number == len(parts)
        beats = told[number - 1 :] if last else told[number - 1 : number]
        layout = _rest(view, stems) if last and len(told) > 1 else _words_only(view, stems)
        pages.append(_page(view, layout, beats, number))
    return tuple(pages)


def _parts(view: PartView) -> list[list[Stem]]:
    """The item's words page by page; the last page has room for diagram and answer."""
    stems, _ = _words(view, atoms.SMALLEST)
    parts: list[list[Stem]] = [[]]
    y = FIRST
    for stem in stems:
        for row in stem.rows:
            if y + row.height > BOTTOM:
                parts.append([])
                y = FIRST
            parts[-1].append(Stem((row,), stem.x, y, stem.offset))
            y += max(atoms.SMALLEST * 5 // 4, row.height + 200)
        y += atoms.SMALLEST // 2
    if _rest(view, parts[-1]).bottom > BOTTOM and len(parts[-1]) > 1:
        # The question goes with the answer.
        half = max(1, len(parts[-1]) - 8)
        parts[-1:] = [parts[-1][:half], _raised(parts[-1][half:])]
    return parts


def _raised(stems: Sequence[Stem]) -> list[Stem]:
    """The same rows, from the top of a page."""
    up = stems[0].y - FIRST
    return [replace(stem, y=stem.y - up) for stem in stems]


def _rest(view: PartView, stems: Sequence[Stem]) -> _Layout:
    return _under(view, stems, LONG, stems[-1].bottom + 900)


def _words_only(view: PartView, stems: Sequence[Stem]) -> _Layout:
    beside = _beside(view)
    groups = (_stem_group(view, stems), *([beside] if beside is not None else []))
    return _Layout(tuple(stems), groups, stems[-1].bottom)
