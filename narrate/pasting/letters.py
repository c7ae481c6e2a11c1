"""The choices of a question: letters with a point or in brackets, bare letters, side by side.

Bare letters are choices only where they go A, B, C (or F, G, H) in order. Whatever comes behind the
choices and cannot be one of them is handed back.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

ORDERS = ("ABCDEFGH", "FGHJK")
"""Letters of choices; papers that change letters from item to item write F, G, H, J (no I)."""

_MARK = re.compile(
    r"(?:(?<=\s)|^)(?:[•○◯□☐❍◻]\s*)?"
    r"(?:\(([A-Ka-k])\)|\[([A-Ka-k])\]|([A-Ka-k])[.)](?!\w\.)|([A-K]):(?=\s))(?:\s+|$|(?=[\d$−(]))"
)
_BARE = re.compile(r"(?:(?<=\s{2})|(?<=\t)|^)\s*(?:[○◯□☐❍◻]\s*)?([A-K])(?:\s+(?=\S)|$)")
_SHORT = re.compile(r"(?:[^A-Za-z]|\b[A-Za-z]{1,2}\b)*(?:[A-Za-z.²³/]+){0,2}\s*(?:[A-Za-z.²³]+)?")
_BULLET = re.compile(r"^\s*(?:[•○◯☐❍◻▢]|[-*–]\s|□(?!\s*[=+×÷<>−-]))\s*(?=\S)")
_VALUE = re.compile(
    r"\s*[$−-]?\d[\d,./ $%:°]*(?:\s?[A-Za-z.²³]+){0,2}\s*|\d+ ?(?:R|remainder|r) ?\d+",
    re.IGNORECASE,
)


MOST_LINES = 400
"""More lines are no question, and no choices are looked for in them."""


@dataclass(slots=True)
class Lettered:
    """The words before the choices, the choices, what cannot be one of them, and doubts."""

    words: list[str] = field(default_factory=list)
    choices: dict[str, str] = field(default_factory=dict)
    behind: list[str] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Mark:
    letter: str
    start: int
    end: int


def lettered(lines: Sequence[str]) -> Lettered:
    """The choices among the lines of a question ("" is an empty line)."""
    if len(lines) > MOST_LINES:
        return Lettered(words=list(lines))
    begin = _begin(lines)
    if begin is None:
        return _unlettered(lines)
    at, column = begin
    made = Lettered(words=[*lines[:at], lines[at][:column].rstrip()])
    letters: list[str] = []
    lines = [lines[at][column:], *lines[at + 1 :]]
    gap = False
    for place, line in enumerate(lines):
        marks = _marks(line, letters, inside=False)
        if any(mark.letter in letters for mark in marks):
            made.behind = list(lines[place:])
            break
        if marks:
            ends = [mark.start for mark in marks[1:]] + [len(line)]
            for mark, end in zip(marks, ends, strict=True):
                letters.append(mark.letter)
                made.choices[mark.letter] = line[mark.end : end].strip()
        elif not letters:
            made.words.append(line)
        elif line.strip() and _is_behind(line, made.choices, gap=gap):
            made.behind = list(lines[place:])
            break
        elif line.strip():
            _append(made.choices, letters, line)
        gap = not line.strip()
    if made.choices:
        _deal_out(made)
        _in_order(made)
    return made


def _begin(lines: Sequence[str]) -> tuple[int, int] | None:
    """The line and column of the first choice."""
    for at, line in enumerate(lines):
        for inside in (False, True):
            marks = _marks(line, [], inside=inside, bare=False)
            if marks and marks[0].letter in "AF" and _goes_on(lines, at, marks):
                return at, marks[0].start
    for at, line in enumerate(lines):
        marks = _marks(line, [], inside=False) or _run_inside(line, _found(_BARE, line), least=3)
        if marks and marks[0].letter in "AF" and _goes_on(lines, at, marks):
            return at, marks[0].start
    return next(((at, 0) for at, line in enumerate(lines) if _lone_sure(line)), None)


def _lone_sure(line: str) -> bool:
    """Whether a line begins with a capital and a point or brackets: a choice whose A is missing."""
    found = _MARK.match(line.lstrip())
    return found is not None and found.start() == 0 and bool(line[found.end() :].strip())


def _goes_on(lines: Sequence[str], at: int, marks: Sequence[_Mark]) -> bool:
    """Whether the letter behind the first one follows, on its line or below, and not A anew."""
    first = marks[0].letter
    if len(marks) > 1:
        return True
    following = _after(first)
    for line in lines[at + 1 :]:
        if re.match(rf"\s*\(?{first}[.)]?(?:\s|$)", line):
            return False
        if found := _marks(line, [first], inside=False):
            return found[0].letter == following
    return False


def _after(letter: str) -> str:
    return chr(ord(letter) + (2 if letter == "H" else 1))


def _marks(line: str, before: Sequence[str], *, inside: bool, bare: bool = True) -> list[_Mark]:
    """The choices a line begins with, and those beside them; `inside`: behind words of the stem."""
    found = [mark for mark in _found(_MARK, line) if mark.letter != "I"]
    if inside:
        return _run_inside(line, found) or [
            m for m in found[-1:] if m.letter in "AF" and _wide(line, m)
        ]
    indent = len(line) - len(line.lstrip())
    if not found or found[0].start > indent:
        found = _bare_marks(line, before) if bare else []
    if not found or found[0].start > indent:
        return []
    made = [found[0]]
    for mark in found[1:]:
        wide = line[: mark.start].endswith(("  ", "\t"))
        if mark.letter == _after(made[-1].letter) or (wide and mark.letter > made[-1].letter):
            made.append(mark)
    return made


def _found(pattern: re.Pattern[str], line: str) -> list[_Mark]:
    found = pattern.finditer(line)
    return [_Mark(next(g for g in m.groups() if g).upper(), m.start(), m.end()) for m in found]


def _wide(line: str, mark: _Mark) -> bool:
    """Whether a mark stands behind a gap, and words before it."""
    return line[: mark.start].endswith(("   ", "\t")) and bool(line[: mark.start].strip())


def _bare_marks(line: str, before: Sequence[str]) -> list[_Mark]:
    """Bare letters, the first one of them the next in order."""
    found = [_Mark(m[1], m.start(1), m.end()) for m in _BARE.finditer(line)]
    if not found or found[0].start != len(line) - len(line.lstrip()):
        return []
    first = found[0].letter
    return found if _expected(first, before) else []


def _expected(letter: str, before: Sequence[str]) -> bool:
    """Whether a bare letter is next in order; behind two columns, the one that is missing."""
    if not before:
        return letter in "AF"
    missing = chr(ord(before[0]) + 1)
    while missing in before:
        missing = _after(missing)
    return letter in (missing, _after(before[-1]))


def _run_inside(line: str, found: Sequence[_Mark], least: int = 2) -> list[_Mark]:
    """Three choices or more in order behind the words of a stem, or two that stand well apart."""
    found = found[:60]
    for at, mark in enumerate(found):
        if mark.letter not in "AF":
            continue
        run = [mark]
        for other in found[at + 1 :]:
            if other.letter == _after(run[-1].letter):
                run.append(other)
        apart = all(line[: m.start].endswith(("  ", "\t")) for m in run[1:])
        if len(run) > 2 or (len(run) == 2 == least and apart):
            return run
    return []


def _append(choices: dict[str, str], letters: Sequence[str], line: str) -> None:
    """A line that goes on with the last choice."""
    last = letters[-1]
    choices[last] = f"{choices[last]}\n{line.strip()}" if choices[last] else line.strip()


def _is_behind(line: str, choices: dict[str, str], *, gap: bool) -> bool:
    """Whether a line without a letter cannot go on with the last choice."""
    words = re.findall(r"[^\W\d_]{2,}", line)
    texts = [text for text in choices.values() if text]
    short = bool(texts) and all(_SHORT.fullmatch(text.replace("\n", " ")) for text in texts)
    return (len(words) > 2 and (gap or short)) or (gap and len(words) > 0 and len(texts) > 1)


def _deal_out(made: Lettered) -> None:
    """Letters first and their texts below: each letter gets its line."""
    letters = list(made.choices)
    last = made.choices[letters[-1]].split("\n")
    if 1 < len(letters) == len(last) and not any(made.choices[a] for a in letters[:-1]):
        made.choices = dict(zip(letters, last, strict=True))
        made.doubts.append(
            "the letters stood apart from their choices: look whether they belong so"
        )


def _in_order(made: Lettered) -> None:
    """The choices in the order of their letters; a gap is told."""
    letters = sorted(made.choices)
    made.choices = {letter: made.choices[letter] for letter in letters}
    first = letters[0]
    order = "FGHJK" if first == "F" else "ABCDEFGHJK"
    if first == "F" and letters != list(order[: len(letters)]):
        order = "FGHIJK"
    if letters != list(order[: len(letters)]):
        made.doubts.append(f"the choices go {', '.join(letters)}: look whether one is missing")


def _unlettered(lines: Sequence[str]) -> Lettered:
    """Choices under bullets, or three values or more below the question, lettered in order."""
    told = [line for line in lines if line.strip()]
    for kind, least in ((_BULLET, 2), (_VALUE, 3)):
        at = len(told)
        while at and (
            kind.match(told[at - 1]) if kind is _BULLET else kind.fullmatch(told[at - 1])
        ):
            at -= 1
        asks = bool(at) and re.search(
            r"[?:]\s*$|\bselect\b|\bchoose\b", told[at - 1], re.IGNORECASE
        )
        if len(told) - at >= least and asks:
            texts = [_BULLET.sub("", line).strip() for line in told[at:]]
            choices = dict(zip("ABCDEFGH", texts, strict=False))
            said = "the paper has no letters here: its lines are lettered in order"
            return Lettered(told[:at], choices, told[at + 8 :], [said])
    return Lettered(words=list(lines))


_ASKS = re.compile(r"(?:^|[.!?]\s+)(?:Find|Explain|Write|Draw|Show|How|What)\b")


def questions(choices: dict[str, str], stem: str) -> bool:
    """Whether what stands under letters is no choice but a question of its own, each of them.

    Where the stem itself asks, only what ends in a question mark is one.
    """
    asked = re.search(r"\?\s*$|\bwhich\b", stem, re.IGNORECASE) is not None
    return len(choices) > 1 and all(
        re.search(r"\?\s*$", text) or (not asked and _ASKS.search(text))
        for text in choices.values()
    )


def stacks(choices: dict[str, str]) -> Iterator[tuple[str, str]]:
    """Fractions whose halves stood on two lines, where that is so of every choice."""
    found = {a: re.fullmatch(r"((?:\d+ )?\d+)\n(\d+)", text) for a, text in choices.items()}
    if len(choices) > 1 and all(found.values()):
        yield from ((a, f"{m[1]}/{m[2]}") for a, m in found.items() if m)
