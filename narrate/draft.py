"""A review file of a pasted test: the items found, their keys, and what stood beside them.

`pasting/` finds the items; `settling.py` says what must be settled in them.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterator, Sequence

from narrate.pasting.mended import mended, parted_words
from narrate.pasting.papers import Paper, Pasted, Piece, paper
from narrate.reading.told_before import statements

LONGEST = 200_000
_LETTERS = re.compile(r"[A-Ka-k](?:\s*(?:,|and|&|\s)\s*[A-Ka-k])*")

END = "\0end of a question"
"""Stands behind the last line of each question, where what is to settle in it is told."""

_NO_TITLE = re.compile(
    r"__|^\W*(?:name|date|class|teacher|directions?|key|answers?|part)\b|[.:?!]\s*$", re.I
)
LONGEST_TITLE = 80


def draft_lines(text: str, name: str, shared: Collection[str] = ()) -> list[str]:
    """The lines of the review file of a pasted text, named `name`, with `END` behind each question.

    A line that could be a title, first before the first number, is the review's title. `shared` are
    the ids of items all of whose parts are to share what the first tells before it asks.
    """
    found = paper(text)
    before = [one_line(cell) for line in found.heading for cell in _BESIDE_NAME.split(line)]
    at = next((at for at, line in enumerate(before) if _is_title(line)), None)
    title = before.pop(at) if at is not None and at < 2 else _from_name(name)
    grade = _GRADE.search(" ".join(found.heading))
    written: list[str] = []
    used: set[str] = set()
    plain = _plainly_numbered(found)
    last = ""
    for place, item in enumerate(found.items, start=1):
        last = item.number or last
        named = f"Question {item.number}" if item.number else f"After question {last}"
        label = "" if plain or not last else named
        id_ = _id(item, place, used)
        if id_ in shared and item.parts:
            _share_first(item)
        written += ["", *_item_lines(item, id_, label)]
    lines = [
        "# Drafted from pasted text. Settle what the comments name, then: narrate check",
        *(f"# not taken, as it stands before the first number: {line}" for line in before),
        f"review: {_quoted(title)}",
        f"grade: {grade[1] or grade[2] if grade else 5}",
        "items:" if found.items else "items: []  # no item was found in the text",
        *written,
    ]
    left = [*found.left, *_lost(found.said, [*lines, *found.left])]
    return lines + [""] * bool(left) + [f"{NOT_TAKEN}{one_line(line)}" for line in left]


_BESIDE_NAME = re.compile(r"(?<=\S)\s{2,}(?=(?:name|date|class|pupil|student)\b)", re.IGNORECASE)
_GRADE = re.compile(r"\bgrade\s+([3-8])\b|\b([3-8])(?:rd|th)\s+grade\b", re.IGNORECASE)
NOT_TAKEN = "# not taken: "
"""Begins the comment with a line that found no place in the items, at the end of the file."""


def _plainly_numbered(found: Paper) -> bool:
    """Whether the paper's numbers are those that a review gives by itself: 1, 2, 3."""
    numbers = [item.number for item in found.items]
    return all(number in ("", str(at)) for at, number in enumerate(numbers, start=1))


_UNCOUNTED = re.compile(
    r"question|item|problem|exercise|part|key|answer|ans|correct|no|and|over|box|[^\W\d]"
)
"""Words that a review file has its own way to say, and single letters."""


def _lost(said: Sequence[str], lines: Sequence[str]) -> Iterator[str]:
    """The lines of a pasted text with a word or number that no line drafted of it holds."""
    kept = Counter(_words("\n".join(lines)))
    missing = Counter(word for line in said for word in _words(line)) - kept
    for line in said:
        words = [word for word in _words(line) if missing[word] > 0]
        if words:
            missing.subtract(words)
            yield line.strip()


def _words(line: str) -> list[str]:
    words = re.findall(r"[^\W\d_]+|\d+", mended(line).lower())
    return [word for word in words if not _UNCOUNTED.fullmatch(word)]


def _is_title(line: str) -> bool:
    """Whether a line names the test: no place for a pupil's name, and no sentence."""
    return len(line) <= LONGEST_TITLE and not _NO_TITLE.search(line) and any(map(str.isalpha, line))


def _from_name(name: str) -> str:
    return name.replace("-", " ").replace("_", " ").strip() or "Review"


# -- writing them


def _id(item: Pasted, place: int, used: set[str]) -> str:
    name = f"question-{item.number or place}"
    while name in used:
        name += "-again"
    used.add(name)
    return name


def _share_first(item: Pasted) -> None:
    """Put what the first part tells before it asks among what all parts share."""
    told, asked = statements(item.parts[0].ask)
    if told:
        item.shared.words.append(told)
        item.parts[0].words = [asked]
        item.parts[0].notes.append(f"in Part A, and later parts go on from it: {told}")


def _item_lines(item: Pasted, name: str, label: str) -> Iterator[str]:
    yield f"  - id: {name}"
    if label:
        yield f"    label: {label}"
    shared = " ".join([item.stimulus, mended(item.shared.ask) if item.parts else ""]).strip()
    if shared:
        yield "    stimulus:"
        yield f"      text: {_quoted(shared)}"
    if not item.parts:
        yield from _piece_lines(item.shared, "stem", "    ")
        return
    if item.shared.choices or item.shared.key:
        said = [f"{a}. {text}" for a, text in item.shared.choices.items()]
        said += [f"Key: {item.shared.key}"] * bool(item.shared.key)
        yield f"    # to settle: before its parts stands “{one_line(' '.join(said))}”"
    yield from _notes(item.shared, "    ")
    yield "    parts:"
    for part in item.parts:
        inner = list(_piece_lines(part, "ask", "        "))
        yield f"      - {inner[0].lstrip()}"
        yield from inner[1:]


_SEVERAL = re.compile(
    r"\b(?:select|choose|mark|check|circle|pick)\s+(?:all|every|(?:the\s+)?(?:two|three|four|2|3|4))\b"
    r"|\ball that apply\b",
    re.IGNORECASE,
)


def _piece_lines(piece: Piece, name: str, indent: str) -> Iterator[str]:
    ask = mended(piece.ask)
    parted = ", ".join(parted_words(piece.ask, ask))
    note = f"  # mended, had grown together: {one_line(parted)}" if parted else ""
    yield f"{indent}{name}: {_quoted(ask or 'What is asked?')}{note}"
    if not piece.ask:
        yield f"{indent}# no question was found: write it above"
    several = bool(piece.choices and _SEVERAL.search(piece.ask))
    if several:
        yield f"{indent}select: all"
    if piece.choices:
        yield f"{indent}choices:"
        for letter, text in piece.choices.items():
            two = "  # a fraction? write 3/4" if re.fullmatch(r"\d+\s+\d+", text) else ""
            yield f"{indent}  {letter}: {_quoted(mended(text) or '?')}{two}"
    else:
        unit = f", {_quoted(piece.unit)}" if piece.unit else ""
        other = "or [numerator, denominator], or with whole before them"
        yield f"{indent}boxes: [number{unit}]  # {other}"
    yield from _key_lines(piece, indent, several)
    yield from _notes(piece, indent)
    yield END


def _notes(piece: Piece, indent: str) -> Iterator[str]:
    """What is doubtful in a question, and what else stood on the paper."""
    for doubt in piece.doubts:
        first, *more = doubt.rstrip().split("\n")
        yield f"{indent}# to settle: {one_line(first)}"
        yield from (f"{indent}# {one_line(line)}" for line in more)
    yield from (f"{indent}{ON_PAPER}{one_line(note)}" for note in piece.notes)


ON_PAPER = "# on the paper: "
"""Begins a comment in which nothing is to settle."""


def _key_lines(piece: Piece, indent: str, several: bool) -> Iterator[str]:
    if not piece.key:
        return
    said = re.sub(r"^\(([A-Ka-k])\)$|^([A-Ka-k])[.)]$", r"\1\2", piece.key)
    same = [a for a, text in piece.choices.items() if _alike(text) == _alike(said)]
    letters = re.findall(r"[A-K]", said.upper()) if _LETTERS.fullmatch(said) else same
    known = letters and all(letter in piece.choices for letter in letters)
    if known and (several or len(letters) == 1):
        yield f"{indent}key: {'[' + ', '.join(letters) + ']' if several else letters[0]}"
    elif piece.choices:
        yield f"{indent}# the text says “Key: {one_line(said)}”, which is no letter of a choice"
    else:
        yield f"{indent}{KEY_SAID}{one_line(said)}”"


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
