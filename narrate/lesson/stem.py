"""The item's own words on a page, and the marks on their telling phrases."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from narrate.lesson import alt, atoms, mathline
from narrate.lesson.block import Area
from narrate.lesson.marks import Box, Group, Plain, Rule
from narrate.lesson.shows import Role, StemMark
from narrate.lesson.view import PartView
from narrate.reading.tellings import question_of

STRIP_SIZES = (2_400, 2_200, 2_000, 1_800)
STRIP_HEIGHT, ROOMY_HEIGHT = 12_600, 8_600
"""The strip at the top of work pages: type sizes tried, the height it may take, and the height to
which it is set larger than it must be (two lines with fractions at 24 pt)."""

LEVEL_GAP = 400
"""Words without a fraction in their first row stand this much lower under the heading."""

_OFFSET = {"stimulus": 0, "ask": 1_000_000}
"""In a strip that holds both, characters of the ask are counted from far behind the stimulus."""

_BELOW_LINE = 400
"""A dashed line under words of the question is drawn so far below the question's own line."""

_BEFORE, _AFTER = 200, 30
"""How far the box of an amount stands off its phrase: after it a full stop may come."""


@dataclass(frozen=True, slots=True)
class Stem:
    """Words set in rows with their top left corner at (`x`, `y`); `offset` is where the characters
    of the stimulus and of the ask begin in them (None where they are not on this page)."""

    rows: tuple[mathline.Row, ...]
    x: int
    y: int
    offset: dict[str, int]

    @property
    def height(self) -> int:
        """How high the words are."""
        return mathline.extent(self.rows)[1]

    @property
    def bottom(self) -> int:
        """The lower edge of the words."""
        return self.y + self.height

    def marks(self) -> tuple[Plain, ...]:
        """The words in their place."""
        return mathline.placed(self.rows, self.x, self.y)

    def stretches(self, show: StemMark) -> tuple[Area, ...]:
        """Where a phrase stands on the page; none where it is not on it."""
        offset = self.offset.get(show.source)
        if offset is None:
            return ()
        found = mathline.stretches(self.rows, show.start + offset, show.end + offset)
        return tuple(
            Area(each.x + self.x, each.y + self.y, each.width, each.height) for each in found
        )


def mark_group(stems: Sequence[Stem], show: StemMark, view: PartView) -> Group | None:
    """The marks on a phrase, or None where it is not in sight."""
    found = [area for stem in stems for area in stem.stretches(show)]
    if not found:
        return None
    phrase = (view.stimulus if show.source == "stimulus" else view.ask)[show.start : show.end]
    name, said = alt.mark(show, phrase, view.language)
    asked = _is_asked(show, view)
    return Group(
        name=name,
        alt=said,
        marks=tuple(m for area in found for m in drawn(area, show.role, asked=asked)),
    )


def _is_asked(show: StemMark, view: PartView) -> bool:
    """Whether a phrase stands in the question, which is underlined before it."""
    start = view.ask.rfind(question_of(view.ask))
    return show.source == "ask" and 0 <= start <= show.start


def drawn(area: Area, role: Role, *, asked: bool = False) -> tuple[Plain, ...]:
    """The mark of a role on one stretch of a row; `asked` where the question's line is there."""
    under = area.bottom + 100
    match role:
        case "amount":
            return (_box(area),)
        case "relationship":
            if asked:
                return (_rule(area, under + _BELOW_LINE, weight=250, dashed=True),)
            return (_rule(area, under, dashed=True),)
        case "unknown":
            return (_rule(area, under, weight=300),)
        case "condition":
            return _rule(area, under), _rule(area, under + 250)
        case "extra":
            return (_rule(area, area.y + area.height // 2, weight=200),)


def _box(area: Area) -> Box:
    return Box(
        x=area.x - _BEFORE,
        y=area.y - 70,
        width=area.width + _BEFORE + _AFTER,
        height=area.height + 200,
        line="pen",
        weight=175,
        rounded=True,
    )


def _rule(area: Area, y: int, *, weight: int = 200, dashed: bool = False) -> Rule:
    return Rule(x1=area.x, y1=y, x2=area.right, y2=y, weight=weight, colour="pen", dashed=dashed)


def paragraph(text: str, size: int, x: int, y: int, width: int, source: str) -> Stem:
    """One source's words on the item page; mathematics alone has fractions of full size."""
    how = atoms.maths(size) if atoms.is_maths(text) else atoms.setting(size)
    return Stem(mathline.balanced(atoms.words_of(text, how), how, width), x, y, {source: 0})


def strips(
    view: PartView, marked: Sequence[StemMark], x: int, y: int, width: int
) -> Iterator[Stem]:
    """The stem as it stays in sight on work pages, the best form first.

    Stems too long for the strip show the sentences that are marked and the question, or the
    question alone, or as much of it as there is room for.
    """
    whole = _Source(view.stimulus, view.ask)
    for text in (whole.everything(), whole.marked(marked), whole.question()):
        sizes = [_set(text, size, x, y, width) for size in STRIP_SIZES]
        if len(sizes[1].rows) < len(sizes[0].rows):
            del sizes[0]  # a line less is worth a little size
        roomy = [stem for stem in sizes if stem.height <= ROOMY_HEIGHT]
        fitting = [stem for stem in sizes[-2:] if stem.height <= STRIP_HEIGHT]
        yield from [*roomy, *fitting][:1]
        stem = sizes[-1]
    yield _first_rows(stem)


@dataclass(frozen=True, slots=True)
class _Piece:
    """Characters `start` to `end` of one source."""

    source: str
    start: int
    text: str


@dataclass(frozen=True, slots=True)
class _Source:
    stimulus: str
    ask: str

    def everything(self) -> tuple[_Piece, ...]:
        return tuple(
            _Piece(source, 0, text)
            for source, text in (("stimulus", self.stimulus), ("ask", self.ask))
            if text
        )

    def sentences(self) -> tuple[_Piece, ...]:
        return tuple(
            _Piece(piece.source, start, piece.text[start:end])
            for piece in self.everything()
            for start, end in _sentences(piece.text)
        )

    def marked(self, marks: Sequence[StemMark]) -> tuple[_Piece, ...]:
        """The sentences with a mark in them, and the last."""
        all_of_them = self.sentences()
        return tuple(
            piece
            for piece in all_of_them
            if piece == all_of_them[-1] or any(_marks(mark, piece) for mark in marks)
        )

    def question(self) -> tuple[_Piece, ...]:
        return self.sentences()[-1:]


def _marks(mark: StemMark, piece: _Piece) -> bool:
    end = piece.start + len(piece.text)
    return mark.source == piece.source and mark.start < end and piece.start < mark.end


def _sentences(text: str) -> tuple[tuple[int, int], ...]:
    """Where sentences begin and end; a new one begins with a capital letter or a digit."""
    starts = [0, *(m.end() for m in re.finditer(r"[.?!][”\"')]*\s+(?=[A-Z0-9“\"])", text))]
    return tuple(pairwise([*starts, len(text)]))


def _set(pieces: Sequence[_Piece], size: int, x: int, y: int, width: int) -> Stem:
    """Pieces of the sources one after another in one paragraph."""
    how = atoms.Setting(size=size, stack=max(atoms.SMALLEST, size * 7 // 8))
    found: list[atoms.Atom] = []
    for piece in pieces:
        start = _OFFSET[piece.source] + piece.start
        found.extend(atoms.shifted(atoms.words_of(piece.text, how), start))
    rows = mathline.flow(found, how, width)
    return Stem(rows, x, y if rows and rows[0].stacked() else y + LEVEL_GAP, _OFFSET)


def _first_rows(stem: Stem) -> Stem:
    """As many rows as the strip holds: for a question that is itself longer than a page's top."""
    rows = stem.rows
    while len(rows) > 1 and mathline.extent(rows)[1] > STRIP_HEIGHT:
        rows = rows[:-1]
    return Stem(rows, stem.x, stem.y, stem.offset)
