"""The work of a page: lines with their equals signs aligned, figures, lists of multiples.

Blocks are made here, each with the groups that will appear in it; `pages` decides what goes on
which page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from narrate.exact.tree import Relation, Writing, walk
from narrate.lesson import atoms, mathline, measure, slipwords
from narrate.lesson.block import Block
from narrate.lesson.marks import Box, Dot, Plain, Rule
from narrate.lesson.shows import Line, Multiples

MATHS = (4_000, 3_600)
"""Sizes of the lines of work, the one to wish for first."""

LARGE = 4_800
"""The size of the lines of a page that has few of them and nothing beside them."""

KEPT = 2_400
"""The size of the results that earlier pages leave at the top of a page."""

KEPT_GAP, KEPT_EDGE = 1_400, 600
"""Between two results; from the edge of the sheet that each stands on to its text."""

LINE_GAP = 700
GUTTER = 2_600
NOTE = 2_200
LIST_SIZES = (3_200, 2_800, 2_400, 2_000)
LIST_GAP = 500
TAKEAWAY = 2_800


@dataclass(frozen=True, slots=True)
class WorkLine:
    """A line of work: rows with their left edges, for an equals sign at `equals`."""

    show: Line
    rows: tuple[tuple[int, mathline.Row], ...]
    note: tuple[mathline.Row, ...]
    note_beside: bool

    @property
    def stacked(self) -> bool:
        """Whether a stacked fraction stands in it."""
        return any(row.stacked() for _, row in self.rows)

    def _bases(self) -> tuple[int, ...]:
        rows = [row for _, row in self.rows]
        return mathline.paragraph(rows, rows[0].setting.size * 5 // 4)

    @property
    def width(self) -> int:
        """From the left edge of the zone to the end of the line or its note."""
        work = max(left + round(row.width * measure.SLACK) for left, row in self.rows)
        note = mathline.extent(self.note)[0]
        return max(work, self._note_left() + note if note else 0)

    @property
    def height(self) -> int:
        """Of all its rows."""
        tall = self._bases()[-1] + self.rows[-1][1].below
        if self.note and not self.note_beside:
            return tall + mathline.extent(self.note)[1] + 200
        return tall

    def _note_left(self) -> int:
        if not self.note_beside:
            return self.rows[0][0]
        left, row = self.rows[-1]
        return left + round(row.width * measure.SLACK) + 1_600

    def marks(self) -> tuple[Plain, ...]:
        """All its marks, from its top left corner."""
        return tuple(self._marks())

    def _marks(self) -> Iterator[Plain]:
        for (left, row), base in zip(self.rows, self._bases(), strict=True):
            yield from row.marks(left, base)
            if self.show.struck:
                yield _slanted(left, row, base)
        if self.note:
            yield from mathline.placed(self.note, self._note_left(), self._note_top())

    def _note_top(self) -> int:
        note = mathline.extent(self.note)[1]
        if not self.note_beside:
            return self.height - note
        base, row = self._bases()[-1], self.rows[-1][1]
        middle = base - round(measure.AXIS * row.setting.size)
        return max(0, min(middle - note // 2, self.height - note))


def _slanted(left: int, row: mathline.Row, base: int) -> Rule:
    middle, lift = base - round(measure.AXIS * row.setting.size), row.height * 2 // 5
    right = left + row.width
    return Rule(x1=left, y1=middle + lift, x2=right, y2=middle - lift, weight=200, colour="pen")


@lru_cache(maxsize=1024)
def left_side(tree: Writing, size: int) -> int:
    """The width of what stands before the first relation sign, or of everything."""
    row = mathline.line(atoms.atoms_of(tree, atoms.maths(size)), atoms.maths(size))
    return next((left - atom.gap for left, atom in row.atoms if atom.relation), row.width)


def results(before: Sequence[Writing], later: Sequence[Writing]) -> tuple[Writing, ...]:
    """What a page keeps of the lines `before` it: what was asked, and what is worked with `later`.

    Of a line its two ends are kept (`3/4 = 15/20`); the last line always, the others where a later
    line has their result in it.
    """
    wanted = {part for tree in later for part in walk(tree)}
    found = [
        tree
        for tree in before
        if not _compares(tree)
        and (tree == before[-1] or not isinstance(tree, Relation) or tree.sides[-1] in wanted)
    ]
    return tuple(dict.fromkeys(_ends(tree) for tree in found))


def _compares(tree: Writing) -> bool:
    """Whether a line is no result: it says which of two numbers is more, or nearly what."""
    return isinstance(tree, Relation) and tree.sign != "="


def _ends(tree: Writing) -> Writing:
    if not isinstance(tree, Relation):
        return tree
    return replace(tree, sides=(tree.sides[0], tree.sides[-1]))


@lru_cache(maxsize=256)
def kept_row(trees: tuple[Writing, ...], width: int) -> tuple[tuple[Writing, ...], Block]:
    """Results side by side on one row, the latest of them that fit, and which they are."""
    how = atoms.maths(KEPT)
    for start in range(len(trees)):
        left, above = 0, 0
        rows: list[tuple[int, mathline.Row]] = []
        for tree in trees[start:]:
            row = mathline.line(atoms.atoms_of(tree, how), how)
            rows.append((left, row))
            left += round(row.width * measure.SLACK) + 2 * KEPT_EDGE + KEPT_GAP
            above = max(above, row.above)
        if left - KEPT_GAP <= width:
            tall = above + max(row.below for _, row in rows) + KEPT_EDGE
            marks = tuple(m for left, row in rows for m in _on_a_sheet(left, row, above, tall))
            return trees[start:], Block(left - KEPT_GAP, tall, marks)
    return (), Block(0, 0)


def _on_a_sheet(left: int, row: mathline.Row, above: int, tall: int) -> tuple[Plain, ...]:
    width = round(row.width * measure.SLACK) + 2 * KEPT_EDGE
    sheet = Box(x=left, y=0, width=width, height=tall, fill="panel", rounded=True)
    return (sheet, *row.marks(left + KEPT_EDGE, above + KEPT_EDGE // 2))


@lru_cache(maxsize=1024)
def weight(show: Line, width: int) -> int:
    """What a line counts on a page that holds six plain lines or three stacked ones."""
    rows = work_line(show, MATHS[-1], 0, width).rows
    return sum(2 if row.stacked() else 1 for _, row in rows)


@lru_cache(maxsize=1024)
def work_line(show: Line, size: int, equals: int, width: int, language: str = "en") -> WorkLine:
    """A line set in `width`, its first relation sign at `equals`, broken where it must be."""
    how = atoms.maths(size)
    sides = _sides(atoms.atoms_of(show.tree, how))
    lead = mathline.line(sides[0], how).width
    start = max(0, equals - lead) if len(sides) > 1 else 0
    rows = _set(sides, how, start, max(equals, start + lead), width)
    text = show.note or (slipwords.not_right(show.slip, language) if show.struck else "")
    return _noted(show, rows, text, width)


def _noted(
    show: Line, rows: tuple[tuple[int, mathline.Row], ...], text: str, width: int
) -> WorkLine:
    how = atoms.note(NOTE)
    found = atoms.words_of(text, how) if text else ()
    left, row = rows[-1]
    room = width - left - round(row.width * measure.SLACK) - 1_600
    beside = mathline.flow(found, how, max(room, 1))
    if not found or (room >= 8_000 and len(beside) <= 2):
        return WorkLine(show, rows, beside, True)
    return WorkLine(show, rows, mathline.flow(found, how, width - rows[0][0]), False)


def _sides(found: Sequence[atoms.Atom]) -> list[list[atoms.Atom]]:
    """Atoms cut before each relation sign."""
    sides: list[list[atoms.Atom]] = [[]]
    for atom in found:
        if atom.relation and sides[-1]:
            sides.append([])
        sides[-1].append(atom)
    return sides


def _set(
    sides: Sequence[Sequence[atoms.Atom]],
    how: atoms.Setting,
    start: int,
    equals: int,
    width: int,
) -> tuple[tuple[int, mathline.Row], ...]:
    """Sides on rows: as many on a row as fit, further rows beginning at the equals sign."""
    whole = mathline.line([atom for side in sides for atom in side], how)
    if start + whole.width * measure.SLACK <= width:
        return ((start, whole),)
    indent = equals if width - equals >= width * 2 // 5 else how.size
    rows: list[tuple[int, mathline.Row]] = []
    for left, group in _grouped(sides, how, start, indent, width):
        room = round((width - left) / measure.SLACK)
        flowed = mathline.balanced(group, how, room)
        rows += [(left, row) for row in flowed]
    return tuple(rows)


def _grouped(
    sides: Sequence[Sequence[atoms.Atom]],
    how: atoms.Setting,
    start: int,
    indent: int,
    width: int,
) -> Iterator[tuple[int, list[atoms.Atom]]]:
    """The sides of each row with its left edge; the last row has no short side by itself."""
    rows: list[list[Sequence[atoms.Atom]]] = [[sides[0]]]
    for side in sides[1:]:
        left = indent if len(rows) > 1 else start
        if _fits([*rows[-1], side], how, width - left):
            rows[-1].append(side)
        else:
            rows.append([side])
    if len(rows) > 1 and len(rows[-1]) == 1 and len(rows[-2]) > 2:
        last = [rows[-2][-1], *rows[-1]]
        if _fits(last, how, width - indent):
            rows[-2:] = [rows[-2][:-1], last]
    for number, row in enumerate(rows):
        first, *others = (atom for side in row for atom in side)
        yield (indent, [first._replace(gap=0), *others]) if number else (start, [first, *others])


def _fits(sides: Sequence[Sequence[atoms.Atom]], how: atoms.Setting, width: int) -> bool:
    row = mathline.line([atom for side in sides for atom in side], how)
    return row.width * measure.SLACK <= width


@dataclass(frozen=True, slots=True)
class MultiplesList:
    """A list of multiples in rows: the list, and the ring around its last value."""

    block: Block
    ring: Dot | None


def list_size(shows: Sequence[Multiples], width: int, height: int) -> int:
    """The largest size in which no list is broken and all have room; else the smallest unbroken.

    Where all break, the last but one.
    """
    smallest = LIST_SIZES[-2]
    for size in LIST_SIZES:
        if not any(_breaks(show, size, width) for show in shows):
            if lists_height(shows, size, width) <= height:
                return size
            smallest = size
    return smallest


def _breaks(show: Multiples, size: int, width: int) -> bool:
    return multiples(show, size, width).block.height > size * 2


def lists_height(shows: Sequence[Multiples], size: int, width: int) -> int:
    """How high some lists are, one under another."""
    tall = sum(multiples(show, size, width).block.height for show in shows)
    return tall + LIST_GAP * max(0, len(shows) - 1)


@lru_cache(maxsize=512)
def multiples(show: Multiples, size: int, width: int) -> MultiplesList:
    """`4:` and its multiples, in as few rows as `width` asks for."""
    bold = atoms.Setting(size=size, stack=size, bold=True)
    label = mathline.line((atoms.word_atom(f"{show.of}:", bold),), bold)
    alone = len(show.values) == 1  # its ring keeps off the colon
    how, left = atoms.maths(size), label.width + (size * 4 // 5 if alone else size // 2)
    rows = _list_rows(show, how, width - left - size // 3)
    base, leading = round(1.08 * size), round(1.65 * size)
    marks = list(label.marks(0, base))
    for number, row in enumerate(rows):
        marks += row.marks(left, base + number * leading)
    wide = left + max(row.width for row in rows) + size // 3
    block = Block(wide, base + (len(rows) - 1) * leading + size // 2, tuple(marks))
    edge, last = rows[-1].atoms[-1]
    middle = base + (len(rows) - 1) * leading - round(measure.DIGIT * size / 2)
    ring = _ring(left + edge + last.width // 2, middle, last.width, size)
    return MultiplesList(block, ring if show.ring else None)


def _list_rows(show: Multiples, how: atoms.Setting, width: int) -> tuple[mathline.Row, ...]:
    """The values with commas; the last one a little apart, for the ring around it."""
    *first, last = show.values
    found = [atoms.word_atom(f"{value},", how, gap=how.size * 2 // 5) for value in first]
    end = atoms.word_atom(str(last), how, gap=how.size * 3 // 5)
    return mathline.flow([*found, end], how, width)


def _ring(centre: int, middle: int, width: int, size: int) -> Dot:
    tall = round(1.35 * size)
    wide = max(tall, width + round(0.7 * size))
    return Dot(
        x=centre - wide // 2,
        y=middle - tall // 2,
        width=wide,
        height=tall,
        fill=None,
        line="pen",
        weight=275,
    )


def takeaway(text: str, width: int) -> Block:
    """The sentence to take along, behind a blue bar."""
    for size in (TAKEAWAY, 2_400, 2_000, atoms.SMALLEST):
        how = atoms.setting(size, bold=True)
        words = mathline.block(mathline.balanced(atoms.words_of(text, how), how, width - 1_600))
        if words.height <= 9_000:
            break
    bar = Rule(x1=200, y1=0, x2=200, y2=words.height, weight=400, colour="pen")
    return Block(words.width + 1_200, words.height, (bar, *words.at(1_200, 0)))


@dataclass(frozen=True, slots=True)
class Style:
    """How the work of a page is set: the size of its mathematics, where its equals signs stand.

    With `beside` figures and lists stand to the right of the lines, `left` from the zone's edge.
    """

    size: int
    equals: int
    beside: bool
    left: int
    language: str = "en"


def style(lines: Sequence[Line], side: int, width: int, language: str, size: int) -> Style:
    """How to set a page's lines in `width`; `side` is the room that must be left beside them."""
    equals = _equals([line.tree for line in lines], width, size)
    plain = Style(size=size, equals=equals, beside=False, left=0, language=language)
    left = max((set_line(line, plain, width).width for line in lines), default=0)
    beside = bool(lines) and left + GUTTER + side <= width
    return replace(plain, beside=beside, left=left)


def _equals(trees: Sequence[Writing], width: int, size: int) -> int:
    """Where the equals signs of a page stand: after the widest left side that leaves room."""
    sides = [left_side(tree, size) for tree in trees if isinstance(tree, Relation)]
    return max((side for side in sides if side <= width // 2), default=0)


def set_line(show: Line, how: Style, width: int) -> WorkLine:
    """A line in a page's style."""
    return work_line(show, how.size, how.equals, width, how.language)
