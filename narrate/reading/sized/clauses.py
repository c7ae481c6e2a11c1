"""Sentences cut into clauses, each without the words that say when."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from narrate.reading.sized.times import TIME
from narrate.reading.words.plain import word_set

_JOINTS = (
    " , which ", " , who ", " , that ", " which ", " , while ", " while ", " , whereas ",
    " , but ", " but ", " ; ",
    " , and ",    " and ", " , so ", " : ", " , ",
)  # fmt: skip
_LONGEST_TIME = 8
_FILLERS = word_set(
    "now then also just only still already exactly today later originally initially currently"
    " presently"
)
_OPENERS = word_set("in on at by")
_MOST = 45
"""Words of a sentence that are read."""


@dataclass(frozen=True, slots=True)
class Clause:
    """The words of a clause, the times it names, those named behind "than", and what joins it."""

    text: str
    times: tuple[str, ...] = ()
    held: tuple[str, ...] = ()
    joint: str = ""
    first: bool = True


def cut(text: str, fits: Callable[[Clause], bool]) -> list[Clause] | None:
    """The clauses of a sentence that each fit; None where it cannot be cut so."""
    if text.count(" ") > _MOST:
        return None
    return _cut(text, "", True, fits, 3)


def _cut(
    text: str, joint: str, first: bool, fits: Callable[[Clause], bool], depth: int
) -> list[Clause] | None:
    whole = clause(text, joint=joint, first=first)
    if fits(whole):
        return [whole]
    for left, link, right in _halves(text) if depth else ():
        one = clause(left, joint=joint, first=first)
        if fits(one) and (rest := _cut(right, link, False, fits, depth - 1)) is not None:
            return [one, *rest]
    return None


def _halves(text: str) -> Iterator[tuple[str, str, str]]:
    for joint in _JOINTS:
        start = 0
        while (at := text.find(joint, start)) > 0:
            yield text[:at], joint.strip(" ,") or ",", text[at + len(joint) :]
            start = at + 1


def clause(text: str, *, joint: str = "", first: bool = True) -> Clause:
    """A clause without its times."""
    held = re.search(r" (?:than|as) (?!many\b|much\b)", text)
    behind = [m.start() for m in re.finditer(r" (?:than|as) ", text)]
    if held is None or not behind:
        body, times = without_times(text)
        return Clause(body, times, (), joint, first)
    at = behind[-1]
    body, times = without_times(text[:at])
    tail, later = without_times(text[at + 1 :])
    return Clause(f"{body} {tail}", times, later, joint, first)


def without_times(text: str) -> tuple[str, tuple[str, ...]]:
    """The words without those that say when, and these."""
    words = text.split()
    found: list[str] = []
    at = 0
    kept: list[str] = []
    while at < len(words):
        end = next(
            (
                e
                for e in range(min(len(words), at + _LONGEST_TIME), at, -1)
                if _is_time(words, at, e)
            ),
            at,
        )
        if end > at:
            found.append(" ".join(words[at:end]))
            at = end
        else:
            kept.append(words[at])
            at += 1
    body = re.sub(r"^(?:, )+|(?: ,)+$", "", " ".join(kept))
    return re.sub(r"(?: ,){2,}", " ,", body), tuple(found)


def _is_time(words: list[str], at: int, end: int) -> bool:
    if TIME.fullmatch(" ".join(words[at:end])) is None:
        return False
    outer = at == 0 or end == len(words) or "," in (words[at - 1], words[min(end, len(words) - 1)])
    return outer or words[at].lower() in _FILLERS | _OPENERS or at > 1
