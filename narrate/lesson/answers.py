"""Answer choices in their column, with their strikes and reasons."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from narrate.exact import prose
from narrate.exact.tree import Piece
from narrate.lesson import alt, atoms, mathline, measure
from narrate.lesson.block import Area
from narrate.lesson.marks import Dot, Group, Path, Plain, Rule
from narrate.lesson.view import ChoiceShown

Reasons = Mapping[str, tuple[Piece, ...]]

LETTER_ROOM = 4_400
"""From the left edge of a choice to its text: its letter and the ring that may come around it."""

RING = 3_400
TICK = 2_600
STROKE = 300
"""Thickness of the stroke through a struck letter; the line over its text is half as thick."""

BESIDE, UNDER = 1_400, 300
WIDEST_GAP = 2_600
"""Room between a choice and the reason beside or under it."""


@dataclass(frozen=True, slots=True)
class ChoiceRow:
    """One choice in its place: rows of text at (`x`, `y`) and, perhaps, a reason."""

    letter: str
    words: str
    rows: tuple[mathline.Row, ...]
    reason: tuple[mathline.Row, ...]
    x: int
    y: int
    width: int
    height: int
    place: Literal["beside", "after", "under"]

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the choice's text."""
        return mathline.extent(self.rows)

    def marks(self) -> tuple[Plain, ...]:
        """Letter and text as printed."""
        size = min(self.rows[0].setting.size, 2_800)
        how = atoms.Setting(size=size, stack=size, bold=True)
        letter = mathline.line((atoms.word_atom(self.letter, how),), how)
        base = self._middle() + round(measure.DIGIT * size / 2)
        left = self.x + (RING - letter.width) // 2
        return (*letter.marks(left, base), *self._text())

    def _text(self) -> tuple[Plain, ...]:
        return mathline.placed(self.rows, self.x + LETTER_ROOM, self._text_top())

    def _text_top(self) -> int:
        if self.place == "under":
            return self.y + self.lead
        return self.y + max(self.lead, (self.height - self.size[1]) // 2)

    @property
    def lead(self) -> int:
        """What the ring around the letter reaches above the first row of text."""
        first = self.rows[0]
        return max(0, RING // 2 - first.above + round(measure.AXIS * first.setting.size))

    def _middle(self) -> int:
        """The middle of the first row of text."""
        first = self.rows[0]
        return self._text_top() + first.above - round(measure.AXIS * first.setting.size)

    def strike(self, reason: Sequence[Piece], language: str) -> Group:
        """A firm stroke through the letter and a thin line over the text, which stays readable."""
        name, said = alt.strike(self.letter, tuple(reason), language)
        marks = (self._through_letter(), *self._lines(), *self._reason())
        return Group(name=name, alt=said, marks=marks)

    def _through_letter(self) -> Rule:
        middle, reach = self._middle(), RING * 2 // 5
        centre = self.x + RING // 2
        return Rule(
            x1=centre - reach,
            y1=middle + reach,
            x2=centre + reach,
            y2=middle - reach,
            weight=STROKE,
            colour="pen",
        )

    def _lines(self) -> list[Rule]:
        left, base = self.x + LETTER_ROOM, self._text_top()
        pairs = zip(self.rows, self._bases(), strict=True)
        return [_through(row, left, base + at) for row, at in pairs]

    def _bases(self) -> tuple[int, ...]:
        return mathline.paragraph(self.rows, self.rows[0].setting.size * 5 // 4)

    def _reason(self) -> tuple[Plain, ...]:
        if not self.reason:
            return ()
        left, tall = self.x + LETTER_ROOM, mathline.extent(self.reason)[1]
        match self.place:
            case "beside":
                left += self.size[0] + BESIDE
                return mathline.placed(self.reason, left, self.y + (self.height - tall) // 2)
            case "after":
                base = self._text_top() + self._bases()[-1]
                return self.reason[0].marks(left + self.rows[-1].width + BESIDE, base)
            case "under":
                return mathline.placed(self.reason, left, self._text_top() + self.size[1] + UNDER)

    def ring(self, language: str) -> Group:
        """A ring around the letter and a tick after the text."""
        name, said = alt.choose(self.letter, language)
        top, left = self._middle() - RING // 2, self.x + LETTER_ROOM + self.size[0] + BESIDE
        ring = Dot(x=self.x, y=top, width=RING, height=RING, fill=None, line="pen", weight=300)
        return Group(name=name, alt=said, marks=(ring, _tick(left, self._middle() - TICK // 2)))


def _through(row: mathline.Row, left: int, base: int) -> Rule:
    """A thin line: slanted over fractions, whose own rules are level; level over words, under
    their middle."""
    right, thin = left + row.width + 300, STROKE // 2
    if row.stacked() and row.width <= 4 * row.height:
        lift = row.height * 2 // 5
        middle = base - round(measure.AXIS * row.setting.size)
        if row.width > row.height:  # several numbers: they are read under it
            thin = STROKE * 3 // 8
        return Rule(
            x1=left - 300, y1=middle + lift, x2=right, y2=middle - lift, weight=thin, colour="pen"
        )
    y = base - round(0.2 * row.setting.size)
    return Rule(x1=left - 300, y1=y, x2=right, y2=y, weight=thin, colour="pen")


def _tick(x: int, y: int) -> Path:
    points = ((x, y + TICK * 6 // 10), (x + TICK * 4 // 10, y + TICK), (x + TICK, y + TICK // 10))
    return Path(points=points, line="pen", weight=400)


def is_sentence(text: str) -> bool:
    """Whether a choice is words rather than a number or an expression (with a unit)."""
    return sum(word.isalpha() for word in text.split()) > 3


def choice_setting(text: str, maths: int, words: int) -> atoms.Setting:
    """How a choice is set: mathematics large with full-size fractions, sentences as prose."""
    if is_sentence(text):
        return atoms.setting(words)
    return atoms.Setting(size=maths, stack=maths)


@dataclass(frozen=True, slots=True)
class Column:
    """The choices one under another."""

    rows: tuple[ChoiceRow, ...]
    width: int
    height: int

    @property
    def untidy(self) -> tuple[int, int]:
        """How many reasons are broken, and how many stand under their choices."""
        broken = sum(len(row.reason) > 1 for row in self.rows)
        return broken, sum(row.place == "under" for row in self.rows)

    def base(self) -> Group:
        """All choices as printed."""
        said = "; ".join(f"{row.letter}: {prose.caption_prose(row.words)}" for row in self.rows)
        return Group(
            name="choices",
            alt=f"answer choices {said}",
            marks=tuple(mark for row in self.rows for mark in row.marks()),
        )

    def row(self, letter: str) -> ChoiceRow:
        """The choice with that letter."""
        return next(row for row in self.rows if row.letter == letter)


@dataclass(frozen=True, slots=True)
class _Form:
    """Type sizes of mathematics, sentences and reasons, the least gap, and widths to try."""

    maths: int
    words: int
    notes: int
    gap: int
    widths: tuple[int, ...]


_FORMS = (
    _Form(3_600, 2_800, 2_200, 1_400, (24_000, 27_000)),
    _Form(3_200, 2_400, 2_200, 1_000, (24_000, 27_000)),
    _Form(2_800, 2_400, 2_000, 700, (23_000, 26_000, 28_000, 30_000, 36_000)),
    _Form(2_800, 2_000, 2_000, 600, (36_000, 42_000)),
    _Form(2_400, 2_000, 2_000, 600, (36_000, 42_000, 50_000)),
    _Form(2_000, 1_800, 2_000, 300, (42_000, 50_000, 56_000, 62_000)),
    _Form(1_800, 1_800, 1_800, 200, (62_000, 66_000)),
)
"""The forms a column may have, the best first."""

WIDE_ENOUGH = 26_000
"""No column is made wider than this where a narrower one will do."""

WIDER = (30_000,)
"""Further widths of the larger forms, where only then every reason stands on one row."""

ROOMY = 50_000
"""A wider column leaves the work little room; it comes after a shorter stem."""


def column(
    choices: Sequence[ChoiceShown], reasons: Reasons, right: int, top: int, height: int
) -> Column:
    """The choices in a column that ends at `right`, in the best form that fits; else the last.

    In each form reasons on one row come first, beside their choices rather than under them.
    """
    for form in _FORMS:
        widths = (*form.widths, *WIDER) if form.maths >= _FORMS[1].maths else form.widths
        for neat, tried in ((True, widths), (False, form.widths)):
            fitting: list[Column] = []
            for width in tried:
                room = Area(right - width, top, width, height)
                rows = _fitting(choices, reasons, form, room, neat=neat)
                if rows is None:
                    continue
                fitting.append(_placed(rows, form, room))
                if fitting[-1].untidy == (0, 0) or width > WIDE_ENOUGH:
                    break
            if fitting:
                return min(fitting, key=lambda made: made.untidy)
    rows = [_choice(c, reasons.get(c.letter, ()), form, room, neat=False) for c in choices]
    return _placed(rows, form, room)


def _fitting(
    choices: Sequence[ChoiceShown], reasons: Reasons, form: _Form, room: Area, *, neat: bool
) -> list[ChoiceRow] | None:
    """The choices in their rows; None as soon as they are too high, a number or expression is
    broken, or, where they are to be `neat`, a reason is."""
    rows: list[ChoiceRow] = []
    used = form.gap * (len(choices) - 1)
    for choice in choices:
        row = _choice(choice, reasons.get(choice.letter, ()), form, room, neat=neat)
        used += row.height
        broken = len(row.rows) > 1 and not is_sentence(choice.text)
        if used > room.height or broken or (neat and len(row.reason) > 1):
            return None
        rows.append(row)
    return rows


def _placed(rows: Sequence[ChoiceRow], form: _Form, room: Area) -> Column:
    """Rows one under the other, the room that is left between them."""
    used = sum(row.height for row in rows)
    gap = min(WIDEST_GAP, max(form.gap, (room.height - used) // max(1, len(rows) - 1)))
    placed: list[ChoiceRow] = []
    y = room.y
    for row in rows:
        placed.append(replace(row, y=y))
        y += row.height + gap
    return Column(tuple(placed), room.width, y - gap - room.y)


def _choice(
    choice: ChoiceShown, reason: Sequence[Piece], form: _Form, room: Area, *, neat: bool
) -> ChoiceRow:
    how = choice_setting(choice.text, form.maths, form.words)
    wide = room.width - LETTER_ROOM
    rows = mathline.flow(atoms.words_of(choice.text, how), how, wide - TICK - BESIDE)
    plain = ChoiceRow(choice.letter, choice.text, rows, (), room.x, 0, room.width, 0, "beside")
    tall = max(plain.lead + plain.size[1], RING)
    said = atoms.note(form.notes)
    found = atoms.pieces_of(reason, said)
    if not found:
        return replace(plain, height=tall)
    return _with_reason(replace(plain, height=tall), found, said, wide, neat=neat)


def _with_reason(
    row: ChoiceRow, found: Sequence[atoms.Atom], how: atoms.Setting, wide: int, *, neat: bool
) -> ChoiceRow:
    """Beside the text, after its last word, or under it: wherever it takes least room.

    A `neat` one is not broken to stand beside the text.
    """
    room = wide - row.size[0] - BESIDE
    beside = mathline.flow(found, how, max(room, 1))
    across, tall = mathline.extent(beside)
    few = len(beside) == 1 if neat else len(beside) <= 2 or tall <= row.size[1]
    if few and room >= max(7_000, across):
        return replace(row, reason=beside, height=max(row.height, tall))
    one = mathline.line(found, how)
    last = row.rows[-1]
    no_taller = one.above <= last.above and one.below <= last.below
    if no_taller and last.width + BESIDE + one.width <= wide:
        return replace(row, reason=(one,), place="after")
    under = mathline.flow(found, how, wide)
    height = row.height + mathline.extent(under)[1] + UNDER
    return replace(row, reason=under, place="under", height=height)
