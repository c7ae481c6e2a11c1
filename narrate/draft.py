"""A pasted test made a review file: stems, parts, choices and keys found.

`settling.py` says what must be settled in it. Items stand apart by a number ("1.", "2)") or
"Question 3", or by an empty line. Choices begin `A.`, `(A)`, `a)` or `A)`; parts "Part A"; a line
`Key: C` (or `Answer: A, C`) declares the key.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from narrate.mended import mended, parted_words
from narrate.stacked import unstacked

LONGEST = 200_000

_ITEM = re.compile(
    r"^\s*(?:(?:question|item|problem|no\.?)\s*)?(\d{1,3})\s*[.):]\s+(?=\S)|^\s*(?:question|item|problem)\s+(\d{1,3})\s*[.:)]?\s*$",
    re.I,
)
_PART = re.compile(r"^\s*\(?part\s+([a-f])\)?\s*[.:)]?\s*", re.I)
_CHOICE = re.compile(r"^\s*(?:\(([A-HJa-hj])\)|([A-HJa-hj])[.)])\s+(?=\S)")
_INLINE = re.compile(r"(?:(?<=\s)|^)(?:\(([A-HJa-hj])\)|([A-HJa-hj])[.)])\s+")
_KEY = re.compile(
    r"^\s*(?:key|answer|correct answer|answer key)\s*(?:[:=]|-(?=\s))\s*(.+?)\s*$", re.I
)
_BARE = re.compile(r"^\s*([A-H])\s+(?=\S)")
_LETTERS = re.compile(r"[A-HJa-hj](?:\s*(?:,|and|&|\s)\s*[A-HJa-hj])*")


_ORDERS = ("ABCDEFGH", "FGHJ")
"""Letters of choices; papers that change letters from item to item write F, G, H, J (no I)."""


@dataclass(slots=True)
class Piece:
    """One question as pasted: its words, its choices by letter, its key."""

    words: list[str] = field(default_factory=list)
    choices: dict[str, str] = field(default_factory=dict)
    key: str = ""

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

    @property
    def last(self) -> Piece:
        """Where the next line belongs."""
        return self.parts[-1] if self.parts else self.shared


END = "\0end of a question"
"""Stands behind the last line of each question, where what is to settle in it is told."""

_NO_TITLE = re.compile(r"__|^\W*(?:name|date|class|teacher|directions?)\b|[.:?!]\s*$", re.I)
LONGEST_TITLE = 80


def draft_lines(text: str, name: str) -> list[str]:
    """The lines of the review file of a pasted text, named `name`, with `END` behind each question.

    A line that could be a title, first before the first number, is the review's title.
    """
    items, before = _without_heading(split(text))
    title = before.pop(0) if before and _is_title(before[0]) else _from_name(name)
    lines = [
        "# Drafted from pasted text. Settle what the comments name, then: narrate check",
        *(f"# not taken, as it stands before the first number: {line}" for line in before),
        f"review: {_quoted(title)}",
        "grade: 5",
        "items:" if items else "items: []  # no item was found in the text",
    ]
    used: set[str] = set()
    for place, item in enumerate(items, start=1):
        lines += ["", *_item_lines(item, _id(item, place, used))]
    return lines


def _is_title(line: str) -> bool:
    """Whether a line names the test: no place for a pupil's name, and no sentence."""
    return len(line) <= LONGEST_TITLE and not _NO_TITLE.search(line) and any(map(str.isalpha, line))


def _from_name(name: str) -> str:
    return name.replace("-", " ").replace("_", " ").strip() or "Review"


def _without_heading(items: list[Pasted]) -> tuple[list[Pasted], list[str]]:
    """The items with something in them, and the lines of words before the first number."""
    full = [item for item in items if item.last.ask or item.last.choices]
    numbered = any(item.number for item in full)
    heading = [item for item in full if numbered and not item.number]
    return [i for i in full if i not in heading], [
        one_line(line) for i in heading for line in i.last.words if line.strip()
    ]


# -- finding items


def split(text: str) -> list[Pasted]:
    """The items of a pasted text."""
    lines = _lettered(unstacked(text.replace("\r\n", "\n").replace("\r", "\n").split("\n")))
    numbered = sum(1 for line in lines if _ITEM.match(line)) > 0
    items: list[Pasted] = []
    ended = True
    for line in lines:
        found = _ITEM.match(line)
        if found:
            items.append(Pasted(number=found[1] or found[2] or ""))
            line, ended = line[found.end() :], False
        elif not line.strip():
            ended = not numbered
            continue
        elif not items or (ended and _starts_item(line, items[-1])):
            items.append(Pasted(number=""))
        ended = False
        _take(line, items[-1])
    return items


def _lettered(lines: list[str]) -> list[str]:
    """The lines with choices under bare letters, A, B, C in order, written A., B., C."""
    made = list(lines)
    for at in range(len(lines) - 2):
        letters = [m[1] for line in lines[at : at + 8] if (m := _BARE.match(line))]
        if letters[:3] != ["A", "B", "C"] or not _BARE.match(lines[at]):
            continue
        for place, line in enumerate(lines[at : at + len(letters)], start=at):
            if (found := _BARE.match(line)) and found[1] == chr(ord("A") + place - at):
                made[place] = f"{found[1]}. {line[found.end() :]}"
    return made


def _starts_item(line: str, before: Pasted) -> bool:
    """Whether a line behind an empty one begins an item, and goes on with none."""
    if _PART.match(line) or _CHOICE.match(line) or _KEY.match(line):
        return False
    open_ask = not before.last.choices and "?" not in before.last.ask and not before.last.key
    return not open_ask or not before.last.ask


def _take(line: str, item: Pasted) -> None:
    """Put a line where it belongs."""
    if found := _PART.match(line):
        item.parts.append(Piece())
        line = line[found.end() :]
    piece = item.last
    if found := _KEY.match(line):
        piece.key = found[1]
    elif _CHOICE.match(line):
        piece.choices.update(_choices(line))
    elif piece.choices and line.strip():
        letter = list(piece.choices)[-1]
        piece.choices[letter] += f" {line.strip()}"
    elif line.strip():
        words, choices = _inline(line)
        piece.words.append(words)
        piece.choices.update(choices)


def _choices(line: str) -> dict[str, str]:
    """The choices of a line: one, or several side by side."""
    marks = list(_INLINE.finditer(line))
    letters = [(m[1] or m[2]).upper() for m in marks]
    if len(marks) > 1 and any("".join(letters) in order for order in _ORDERS):
        ends = [m.start() for m in marks[1:]] + [len(line)]
        return {a: line[m.end() : e].strip() for a, m, e in zip(letters, marks, ends, strict=True)}
    found = _CHOICE.match(line)
    assert found is not None
    return {(found[1] or found[2]).upper(): line[found.end() :].strip()}


def _inline(line: str) -> tuple[str, dict[str, str]]:
    """A stem with its choices behind it on the same line."""
    marks = list(_INLINE.finditer(line))
    if "".join((m[1] or m[2]).upper() for m in marks[:3]) not in ("ABC", "FGH"):
        return line.strip(), {}
    return line[: marks[0].start()].strip(), _choices(line[marks[0].start() :])


# -- writing them


def _id(item: Pasted, place: int, used: set[str]) -> str:
    name = f"question-{item.number or place}"
    while name in used:
        name += "-again"
    used.add(name)
    return name


def _item_lines(item: Pasted, name: str) -> Iterator[str]:
    yield f"  - id: {name}"
    if not item.parts:
        yield from _piece_lines(item.shared, "stem", "    ")
        return
    if item.shared.ask:
        yield "    stimulus:"
        yield f"      text: {_quoted(mended(item.shared.ask))}"
    yield "    parts:"
    for part in item.parts:
        inner = list(_piece_lines(part, "ask", "        "))
        yield f"      - {inner[0].lstrip()}"
        yield from inner[1:]


def _piece_lines(piece: Piece, name: str, indent: str) -> Iterator[str]:
    ask = mended(piece.ask)
    parted = ", ".join(parted_words(piece.ask, ask))
    note = f"  # mended, had grown together: {one_line(parted)}" if parted else ""
    yield f"{indent}{name}: {_quoted(ask or 'What is asked?')}{note}"
    if not piece.ask:
        yield f"{indent}# no question was found: write it above"
    several = bool(re.search(r"\bselect all\b|\ball that apply\b", piece.ask, re.I))
    if several:
        yield f"{indent}select: all"
    if piece.choices:
        yield f"{indent}choices:"
        for letter, text in piece.choices.items():
            two = "  # a fraction? write 3/4" if re.fullmatch(r"\d+\s+\d+", text) else ""
            yield f"{indent}  {letter}: {_quoted(mended(text) or '?')}{two}"
    else:
        yield f"{indent}boxes: [number]  # or [numerator, denominator], or with whole before them"
    yield from _key_lines(piece, indent, several)
    yield END


def _key_lines(piece: Piece, indent: str, several: bool) -> Iterator[str]:
    if not piece.key:
        return
    same = [a for a, text in piece.choices.items() if _alike(text) == _alike(piece.key)]
    letters = re.findall(r"[A-H]", piece.key.upper()) if _LETTERS.fullmatch(piece.key) else same
    known = letters and all(letter in piece.choices for letter in letters)
    if known and (several or len(letters) == 1):
        yield f"{indent}key: {'[' + ', '.join(letters) + ']' if several else letters[0]}"
    elif piece.choices:
        said = one_line(piece.key)
        yield f"{indent}# the text says “Key: {said}”, which is no letter of a choice"
    else:
        yield f"{indent}{KEY_SAID}{one_line(piece.key)}”"


KEY_SAID = "# compare with what is worked out: the text says “Key: "
"""Begins the comment with a key where pupils write the answer themselves."""


def _alike(text: str) -> str:
    return "".join(text.lower().split())


def one_line(text: str) -> str:
    """A text fit for a comment: one line, and not too long."""
    return "".join(c if c.isprintable() else " " for c in text)[:300]


def _quoted(text: str) -> str:
    """A text as a double-quoted scalar: everything that could be taken for markup is escaped."""
    out = []
    for c in " ".join(text.split()):
        if c in '"\\':
            out.append(f"\\{c}")
        elif c.isprintable():
            out.append(c)
        else:
            out.append(f"\\u{ord(c):04x}" if ord(c) < 0x10000 else f"\\U{ord(c):08x}")
    return f'"{"".join(out)}"'
