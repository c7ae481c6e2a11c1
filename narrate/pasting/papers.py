"""The items of a pasted paper: numbers, words, parts, choices, keys, and notes on the rest."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from narrate.pasting.answer_lists import AnswerList, without_answers
from narrate.pasting.besides import beside, for_several, page_numbers, without_points
from narrate.pasting.characters import plain_lines
from narrate.pasting.letters import Lettered, lettered, questions, stacks
from narrate.pasting.numbers import Start, starts
from narrate.pasting.stacked import in_words, two_lines, unstacked
from narrate.pasting.tables import in_rows, in_sentences

_PART = re.compile(r"^\s*\(?part\s+([a-f])\b\)?\s*[.:)–—-]?\s*", re.IGNORECASE)
_KEY = re.compile(
    r"^\s*(?:key|answer|ans\.?|correct answer|answer key)\s*(?:[:=.]|-(?=\s))\s*(.+?)\s*$",
    re.IGNORECASE,
)
_CHOICE = re.compile(r"^\s*(?:\(([A-Ka-k])\)|([A-Ka-k])[.)])\s+(?=\S)")
_BLANK = re.compile(
    r"^\s*(?:(?:answer|ans\.?)\s*[:=]?\s*)?[$]?\s*_{2,}\s*(?P<unit>[^\W_][^_]*)?$", re.I
)


_BLANK_BEHIND = re.compile(r"(?<=[?.])\s*_{3,}\s*(?P<unit>[A-Za-z][A-Za-z ]{0,20})?\.?$")
_LETTER_BLANK = re.compile(r"\s*[a-z]\s*=\s*_{2,}\s*")


@dataclass(slots=True)
class Piece:
    """One question as pasted: its words, its choices by letter, its key, its notes.

    `doubts` are to settle; `notes` only tell what stood on the paper; `unit` is printed at a blank.
    """

    words: list[str] = field(default_factory=list)
    choices: dict[str, str] = field(default_factory=dict)
    key: str = ""
    unit: str = ""
    doubts: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    @property
    def ask(self) -> str:
        """The words on one line."""
        return " ".join(" ".join(self.words).split())


@dataclass(slots=True)
class Pasted:
    """One item as pasted: its number, what its parts share, and the parts, if it has any."""

    number: str
    shared: Piece = field(default_factory=Piece)
    parts: list[Piece] = field(default_factory=list)
    stimulus: str = ""

    @property
    def last(self) -> Piece:
        """The piece that was begun last."""
        return self.parts[-1] if self.parts else self.shared


@dataclass(slots=True)
class Paper:
    """The items of a paper, the lines before the first of them, and what was not taken.

    `said` are all its lines but the list of answers.
    """

    items: list[Pasted]
    heading: list[str]
    left: list[str]
    said: list[str]


def paper(text: str) -> Paper:
    """The items of a pasted text."""
    plain, whole = plain_lines(text)
    lines, answers = without_answers(unstacked(plain))
    aside = beside(lines)
    held: list[_Direction] = []
    begun = starts(["" if at in aside else line for at, line in enumerate(lines)])
    aside |= page_numbers(lines, begun)
    made = Paper([], [], list(answers.left), lines)
    if begun:
        heading, direction = _cut(lines[: begun[0].line], 0)
        held += direction
        made.heading = [line.strip() for line in heading if line.strip()]
        made.items = list(_numbered(lines, begun, aside, held))
    else:
        made.items = list(_unnumbered(lines, aside, made))
    _share(made, held)
    _told(made, answers)
    for item in made.items:
        for piece in (item.shared, *item.parts):
            said = " ".join([piece.ask, item.stimulus, *piece.choices.values()])
            piece.notes += [
                f"{word} was cut at the end of a line" for word in whole if word in said
            ]
    return made


@dataclass(frozen=True, slots=True, kw_only=True)
class _Direction:
    """A direction for several items, their numbers, and the text that stands under it."""

    numbers: range
    words: str
    text: str


def _cut(lines: Sequence[str], number: int) -> tuple[list[str], list[_Direction]]:
    """The lines of an item, and what stands behind them for later ones."""
    for at, line in enumerate(lines):
        found = for_several(line)
        if found and found[0].start > number and (at or not number):
            rows, _ = in_rows(lines[at + 1 :])
            text = " ".join(" ".join([found[2], *rows]).split())
            later = _Direction(numbers=found[0], words=found[1], text=text)
            return list(lines[:at]), [later]
    return list(lines), []


def _numbered(
    lines: Sequence[str], begun: Sequence[Start], aside: set[int], held: list[_Direction]
) -> Iterator[Pasted]:
    last: int | None = None
    ends = [start.line for start in begun[1:]] + [len(lines)]
    for start, end in zip(begun, ends, strict=True):
        inner = [
            start.rest,
            *("" if at in aside else lines[at] for at in range(start.line + 1, end)),
        ]
        inner, later = _cut(inner, start.number)
        held += later
        inner, bonus = _bonus(inner)
        items = [*_items(str(start.number), inner), *(_items("", bonus) if bonus else ())]
        notes = [lines[at].strip() for at in range(start.line + 1, end) if at in aside]
        items[0].shared.notes += [start.mark] * bool(_MORE_THAN_A_NUMBER.search(start.mark))
        items[-1].last.notes += [f"no part of a question: {note}" for note in notes]
        if last is not None and start.number != last + 1:
            items[0].last.doubts.append(
                f"on the paper {start.number} comes behind {last}\n"
                "look whether a question between them stands inside another one"
            )
        last = start.number
        yield from items


_MORE_THAN_A_NUMBER = re.compile(r"\bof\b|\bpo?i?n?ts?\b|\bmarks?\b", re.IGNORECASE)
_BONUS = re.compile(r"^\s*(?:bonus|extra credit)(?: question)?\b\s*[:.-]?", re.IGNORECASE)


def _bonus(lines: Sequence[str]) -> tuple[list[str], list[str]]:
    """The lines of an item, and those of a question without a number behind it: Bonus: ..."""
    at = next((at for at, line in enumerate(lines) if at and _BONUS.match(line)), len(lines))
    return list(lines[:at]), list(lines[at:])


def _unnumbered(lines: Sequence[str], aside: set[int], made: Paper) -> Iterator[Pasted]:
    """Items of a paper without numbers: they stand apart by an empty line."""
    made.left += [f"no part of a question: {lines[at].strip()}" for at in sorted(aside)]
    blocks: list[list[str]] = []
    ended = True
    for at, line in enumerate(lines):
        if at in aside or not line.strip():
            ended = True
            if blocks:
                blocks[-1].append("")
        elif not blocks or (ended and _starts_item(line, blocks[-1])):
            blocks.append([line])
            ended = False
        else:
            blocks[-1].append(line)
            ended = False
    for block in blocks:
        yield from _items("", block)


def _starts_item(line: str, before: Sequence[str]) -> bool:
    """Whether a line behind an empty one begins an item, and goes on with none."""
    if _PART.match(line) or _CHOICE.match(line) or _KEY.match(line):
        return False
    said = " ".join(before)
    item = _item("", before)[0]
    return bool(item.last.choices or item.last.key) or "?" in said or not said.strip()


# -- one item


def _items(number: str, lines: Sequence[str]) -> list[Pasted]:
    """The item of some lines; more than one where choices begin anew behind another question."""
    item, behind = _item(number, lines)
    made = [item]
    while any(line.strip() for line in behind):
        other, rest = _item("", behind)
        if len(rest) >= len(behind) or not (other.shared.ask and other.last.choices):
            said = [line.strip() for line in behind if line.strip()]
            made[-1].last.doubts += [f"not taken, behind the choices: {line}" for line in said]
            break
        other.shared.doubts.append(
            "the paper has no number here, and choices begin anew\n"
            "look whether this is a question of its own"
        )
        made.append(other)
        behind = rest
    return made


def _item(number: str, lines: Sequence[str]) -> tuple[Pasted, list[str]]:
    """The item of some lines, and the lines that cannot be of it."""
    item = Pasted(number)
    pieces: list[list[str]] = [[]]
    letters = ""
    for at, line in enumerate(lines):
        found = _PART.match(line)
        if found and not _is_named_part(line[found.end() :], lines[at - 1] if at else ""):
            pieces.append([line[found.end() :]])
            letters += found[1].upper()
        else:
            pieces[-1].append(line)
    behind: list[str] = []
    for place, inner in enumerate(pieces):
        piece, left = _piece(inner)
        if place:
            item.parts.append(piece)
        else:
            item.shared = piece
        if left and place + 1 < len(pieces):
            piece.notes += [f"behind the choices: {line.strip()}" for line in left if line.strip()]
        else:
            behind = left
    if item.parts and item.shared.unit:
        item.shared.notes.append(f"a blank for {item.shared.unit}")
    if not "ABCDEF".startswith(letters):
        item.last.doubts.append(f"the parts go {', '.join(letters)}: look whether one is missing\n")
    if not item.parts and questions(item.shared.choices, item.shared.ask):
        item.parts = [Piece(words=[text]) for text in item.shared.choices.values()]
        item.shared.choices = {}
        item.last.doubts.append("the letters stand before questions: they are read as parts\n")
    return item, behind


_UNFINISHED = re.compile(
    r"(?:,|&|\b(?:and|or|both|from|in|of|to|for|with|using|use|see|answer|by|your|the|then|than))\s*$",
    re.IGNORECASE,
)
_ANOTHER_PART = re.compile(r"(?:and|or|&|,|to|through)\s*(?:part\s+)?[A-F]\b", re.IGNORECASE)


def _is_named_part(behind: str, above: str) -> bool:
    """Whether a part at the beginning of a line is only named there, in a sentence that was cut.

    Use the information to answer Part A and / Part B.
    """
    return bool(_UNFINISHED.search(above) or _ANOTHER_PART.match(behind))


def _piece(lines: Sequence[str]) -> tuple[Piece, list[str]]:
    """The question in some lines, and the lines behind its choices that cannot be of them."""
    piece = Piece()
    kept: list[str] = []
    for line in lines:
        if not _take(line, piece, begun=bool(kept)):
            kept.append(line)
    found = lettered(two_lines(kept))
    piece.doubts += [f"{doubt}\n" for doubt in found.doubts]
    _ask_behind(piece, found)
    piece.choices = found.choices
    for letter, text in stacks(piece.choices):
        piece.choices[letter] = text
        piece.notes.append(f"{letter} stood on two lines")
    piece.choices = {letter: " ".join(text.split()) for letter, text in piece.choices.items()}
    _say(piece, found.words)
    if piece.choices and piece.unit:
        piece.notes.append(f"a blank for {piece.unit}")
    return piece, found.behind


def _take(line: str, piece: Piece, *, begun: bool) -> bool:
    """Take a line that is a blank or a key; whether it is one."""
    if begun and _LETTER_BLANK.fullmatch(line):
        piece.notes.append(line.strip())
    elif blank := _BLANK.match(line):
        unit = (blank["unit"] or "").strip(" .")
        piece.unit = piece.unit or unit
        if piece.unit != unit:
            piece.notes.append(f"a second blank: {line.strip()}")
    elif key := _KEY.match(line):
        if piece.key:
            piece.doubts.append(f"a second key stands here: {line.strip()}\n")
        piece.key = piece.key or key[1]
    else:
        return False
    return True


def _ask_behind(piece: Piece, found: Lettered) -> None:
    """Put a question that stands behind its choices before them."""
    if not found.choices or any("?" in line for line in found.words):
        return
    asked = next((at for at, line in enumerate(found.behind[:2]) if "?" in line), None)
    if asked is not None:
        found.words += found.behind[: asked + 1]
        found.behind = found.behind[asked + 1 :]
        piece.doubts.append("the question stands behind its choices: it is put before them\n")


def _say(piece: Piece, lines: Sequence[str]) -> None:
    """The words of a question: fractions and tables on a line, points and blanks apart."""
    words, fractions = in_words(lines)
    look = "stood on two lines: look whether it is a fraction\n"
    piece.doubts += [f"{read} {look}" for read in fractions]
    rows, tables = in_rows(in_sentences(words))
    piece.words = [line.strip() for line in rows if line.strip()]
    piece.notes += ["a table; its rows stand here one behind the other"] * tables
    ask, points = without_points(piece.ask)
    if (blank := _BLANK_BEHIND.search(ask)) and not piece.unit and not piece.choices:
        ask, piece.unit = ask[: blank.start()].rstrip(), (blank["unit"] or "").strip()
        piece.words = [ask]
    if points and ask:
        piece.words = [ask]
        piece.notes += points


# -- what several items share, and the answers


def _share(made: Paper, held: Sequence[_Direction]) -> None:
    """Give the items that a direction names the text that stands under it."""
    for direction in held:
        numbers = direction.numbers
        mine = [item for item in made.items if item.number and int(item.number) in numbers]
        for item in mine:
            item.stimulus = " ".join(f"{item.stimulus} {direction.text}".split())
            item.last.notes.append(direction.words)
        if not mine:
            made.left += [line for line in (direction.words, direction.text) if line]
    for item in made.items:
        found = for_several(item.shared.ask) if item.number else None
        for other in made.items if found else ():
            if found and other is not item and other.number and int(other.number) in found[0]:
                other.last.doubts.append(
                    f"the words of question {item.number} are for this one too\n"
                    "write here what it shares, as stimulus: or in the stem"
                )


def _told(made: Paper, answers: AnswerList) -> None:
    """Give the items the answers of the list."""
    for told in answers.told:
        item = next((i for i in made.items if i.number == str(told.number)), None)
        place = ord(told.part) - ord("A") if told.part else 0
        pieces = (item.parts or [item.shared]) if item else []
        said = f"{told.number}{told.part}. {told.answer}"
        if place >= len(pieces) or (item and item.parts and not told.part and len(item.parts) > 1):
            made.left.append(f"an answer of the paper's list: {said}")
        elif pieces[place].key and pieces[place].key.upper() != told.answer.upper():
            pieces[place].doubts.append(f"the paper's list has another key: {said}\n")
        else:
            pieces[place].key = told.answer
