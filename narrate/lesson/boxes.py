"""Answer boxes to fill: their cells, the rule between them, their printed unit and the digits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate.items.item import Box as BoxKind
from narrate.lesson import alt, atoms, mathline, measure
from narrate.lesson.block import Area
from narrate.lesson.marks import Box, Group, Plain, Rule, Text


@dataclass(frozen=True, slots=True)
class Boxes:
    """Answer boxes in their place, empty; `cells` are the boxes in the item's order.

    A `late` unit comes with the digits: "1 bean" beside a box for beans.
    """

    kinds: tuple[BoxKind, ...]
    cells: tuple[Area, ...]
    bar: Rule | None
    unit: tuple[Plain, ...]
    unit_text: str
    size: int
    room: Area
    late: bool = False

    def base(self, language: str) -> Group:
        """The empty boxes with the rule between and the printed unit."""
        name, said = alt.boxes(self.kinds, "" if self.late else self.unit_text, language)
        unit = () if self.late else self.unit
        drawn = tuple(
            Box(x=c.x, y=c.y, width=c.width, height=c.height, fill="panel", weight=175)
            for c in self.cells
        )
        return Group(name=name, alt=said, marks=(*drawn, *([self.bar] if self.bar else []), *unit))

    def filled(self, digits: Sequence[str], language: str) -> Group:
        """The digits in their boxes."""
        name, said = alt.filled(tuple(digits), language)
        marks = tuple(
            _digits(text, cell, self.size)
            for text, cell in zip(digits, self.cells, strict=True)
            if text
        )
        if self.late:
            return Group(name=name, alt=f"{said} {self.unit_text}", marks=(*marks, *self.unit))
        return Group(name=name, alt=said, marks=marks)


def _digits(text: str, cell: Area, size: int) -> Text:
    base = cell.y + (cell.height + round(measure.DIGIT * size)) // 2
    return Text(
        x=cell.x,
        y=base - round(measure.ASCENT * size),
        width=cell.width,
        height=measure.text_height(1, size, size),
        lines=(text,),
        size=size,
        leading=size * 5 // 4,
        colour="pen",
        align="centre",
    )


def answer_boxes(
    kinds: Sequence[BoxKind], digits: Sequence[str], unit: str, size: int, x: int, y: int
) -> Boxes:
    """Boxes for digits of `size`: numerator over denominator, a whole number at their left."""
    longest = max((measure.box_width(text, size) for text in digits), default=0)
    wide, tall = max(round(1.9 * size), longest + size // 2), round(1.45 * size)
    gap = size // 3
    has_fraction = "numerator" in kinds
    room = 2 * tall + 2 * gap if has_fraction else tall
    middle = y + room // 2
    left = x + (wide + gap if has_fraction and ("whole" in kinds or "number" in kinds) else 0)
    cells = []
    for kind in kinds:
        match kind:
            case "numerator":
                cells.append(Area(left, y, wide, tall))
            case "denominator":
                cells.append(Area(left, y + room - tall, wide, tall))
            case _:
                cells.append(Area(x, middle - tall // 2, wide, tall))
    right = max(cell.right for cell in cells)
    bar = None
    if has_fraction:
        bar = Rule(x1=left - gap // 2, y1=middle, x2=left + wide + gap // 2, y2=middle, weight=250)
    printed = _unit(unit, size, right + gap * 2, middle)
    end = max([right, *(mark.x + mark.width for mark in printed)])
    return Boxes(tuple(kinds), tuple(cells), bar, printed, unit, size, Area(x, y, end - x, room))


def _unit(unit: str, size: int, x: int, middle: int) -> tuple[Text, ...]:
    if not unit:
        return ()
    how = atoms.setting(min(size, 2_800))
    rows = mathline.flow(atoms.words_of(unit, how), how, 30_000)
    block = mathline.block(rows)
    return tuple(m for m in block.at(x, middle - block.height // 2) if isinstance(m, Text))
