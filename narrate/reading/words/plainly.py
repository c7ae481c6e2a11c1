"""A reading told in plain words, and the stem with its marks."""

from __future__ import annotations

import re
import unicodedata

from narrate.exact.caption import write
from narrate.reading.answer_units import unit_of_answer
from narrate.reading.words import situations_said
from narrate.reading.words.lexicon import one
from narrate.reading.words.understood import Marked, Understood, as_written

_ROLES = {
    "amount": "amount",
    "relationship": "how they are related",
    "extra": "not needed",
    "condition": "what the answer must be",
    "unknown": "asked",
}


def sentence(found: Understood, text: str) -> str:
    """What was read, in one sentence: the amounts, the situation, what to work out."""
    parts = [_amounts(found), _situation(found), _work(found, text)]
    extra = ", ".join(shown(m.text) for m in found.marks if m.role == "extra")
    parts.append(f"not needed: {extra}" if extra else "")
    return f"I read: {'; '.join(part for part in parts if part)}"


def _amounts(found: Understood) -> str:
    used = (m for m in found.marks if m.role in ("amount", "relationship"))
    return ", ".join(f"{m.of}: {shown(m.text)}" if _names_more(m) else shown(m.text) for m in used)


def _names_more(mark: Marked) -> bool:
    """Whether who it belongs to is not said in the phrase itself."""
    said = {one(word) for word in re.findall(r"[^\W\d_]+", mark.text)}
    return bool(mark.of) and not set(mark.of.split()) <= said


def _situation(found: Understood) -> str:
    return situations_said.said(found.situation, found.unknown)


def _work(found: Understood, text: str) -> str:
    if found.asked_for:
        return found.demand
    unit = shown(unit_of_answer(found, text, text)) or (
        "" if as_written(found.unit, text) else found.unit
    )
    worked = write(found.expression) if found.expression is not None else str(found.value)
    rounded = f", rounded {found.rounding}" if found.rounding else ""
    demand = f", {found.demand}" if found.demand else ""
    return f"{worked}{f' {unit}' if unit else ''}{rounded}{demand}"


def marked(found: Understood, text: str) -> str:
    """The text with its phrases in brackets, each with the role it plays."""
    out, at = [], 0
    for mark in found.marks:
        if mark.start < at or mark.role == "unknown":
            continue
        out.append(shown(text[at : mark.start]))
        out.append(f"[{shown(mark.text)}: {_ROLES[mark.role]}]")
        at = mark.end
    out.append(shown(text[at:]))
    return "".join(out)


def shown(text: str) -> str:
    """Text safe to print: control characters and marks of direction as their code points."""
    return "".join(_printed(c) for c in text)


def _printed(character: str) -> str:
    if character in "\n\t":
        return " "
    hidden = unicodedata.category(character) in ("Cc", "Cf", "Co", "Cs")
    return f"<U+{ord(character):04X}>" if hidden else character
