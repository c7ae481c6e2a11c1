"""A story in notes made whole: "24 bulbs set 6 to a pot; pots needed?", "5 jars, 3 full; left?".

What is asked stands last, in a few words without a number, behind a mark or by itself; a row of
ASKED says which question those words stand for. Words put in have no length: places in the text
stay true.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from narrate.reading.words import lexicon
from narrate.reading.words.token import Token
from narrate.reading.words.verbs import verb_at

_LONGEST = 8
"""Words of a question in notes."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Words that ask in notes, and the question they stand for; `{0}` is what a group holds.

    `many` in a question is "how many" or "how much", by whether what follows is of several.
    """

    words: str
    question: str


_X = r"((?:\w|-)+(?: (?:\w|-)+){0,3}?)"
ASKED: tuple[Asked, ...] = (
    Asked(rf"{_X} (?:is |are )?needed", "many {0} are needed"),
    Asked(rf"{_X} (?:in all|altogether|in total|all together)", "many {0} are there in all"),
    Asked(rf"(in|on|for) each {_X}", "many are {0} each {1}"),
    Asked(r"each (gets?|receives?|share|part)", "how much does each one get"),
    Asked(rf"each {_X}", "how long is each {0}"),
    Asked(rf"{_X} (?:for )?each", "many {0} does each one get"),
    Asked(rf"{_X} per {_X}", "many {0} per {1}"),
    Asked(rf"(length|height|width|weight|area|perimeter)(?: of {_X})?", "what is the {0} of {1}"),
    Asked(r"(at first|before|now|left|at the start|in the beginning)", "many were there {0}"),
    Asked(r"(?:a |the |an |another )?(side .*|other side)", "how long is {0}"),
)  # fmt: skip
_ASKED_FOR = re.compile(
    r"(?:the )?(?:number|area|perimeter|length|width|height|weight|cost|price) of\b"
)


def whole(found: Sequence[Sequence[Token]]) -> list[list[Token]]:
    """The sentences of notes with their question made whole; none where they ask nothing."""
    if not found or sum(s[-1].text == "?" for s in found) > 1:
        return []
    told, last = [list(s) for s in found[:-1]], list(found[-1])
    words = [t for t in last if t.kind != "p"]
    if not told and _ASKED_FOR.match(_text(words)) and not (_says(words) or _lists(last)):
        return [_number_of(words) or _opened("what is", last)]
    before, asking = _apart(last)
    made = _question([t for t in asking if t.kind != "p"], _names(found))
    if not made or (not told and not before):
        return []
    return [
        *told,
        *([before] if before else []),
        [*made, *(t for t in asking[-1:] if t.text == "?")],
    ]


def _lists(sentence: Sequence[Token]) -> bool:
    return any(t.text in (":", ";") for t in sentence)


def _number_of(words: Sequence[Token]) -> list[Token]:
    """Number of small cups in 2 jugs: how many small cups are in 2 jugs; empty for others."""
    of = next(i for i, t in enumerate(words) if t.low == "of")
    inside = next((i for i, t in enumerate(words) if t.low in ("in", "on")), None)
    if words[of - 1].low != "number" or inside is None:
        return []
    made = _opened("how many", words[of + 1 : inside])
    return [*made, _word("are", words[inside].start), *words[inside:]]


def _text(words: Sequence[Token]) -> str:
    return " ".join(t.low for t in words)


def _says(words: Sequence[Token]) -> bool:
    return any(verb_at(words, i) for i in range(len(words)))


def _opened(opening: str, words: Sequence[Token]) -> list[Token]:
    at = words[0].start
    return [*(Token(kind="w", text=w, start=at, end=at) for w in opening.split()), *words]


def _apart(sentence: Sequence[Token]) -> tuple[list[Token], list[Token]]:
    """What the last sentence tells, and the words at its end that ask."""
    marks = [i for i, t in enumerate(sentence[:-1]) if t.text in (",", ":", ";")]
    cut = marks[-1] + 1 if marks else 0
    return list(sentence[: max(cut - 1, 0)]), list(sentence[cut:])


def _names(found: Sequence[Sequence[Token]]) -> frozenset[str]:
    """The words with capitals that tell who has or does something."""
    return frozenset(t.text for s in found for t in s if t.text[:1].isupper())


def _question(words: Sequence[Token], names: frozenset[str]) -> list[Token]:
    """The question that words in notes stand for; empty where they are none."""
    if not words or len(words) > _LONGEST or any(t.kind != "w" for t in words):
        return []
    for row in ASKED:
        if match := re.fullmatch(row.words, _text(words)):
            return _filled(row.question, match, words)
    if _says(words):
        return []
    if len(words) == 1 and words[0].text in names and words[0].low == words[0].lemma:
        return [*_opened("how many does", words), _word("have", words[-1].end)]
    if _plural(words[-1]):
        return _opened("how many", words)
    return _opened("how much is", words)


def _word(text: str, at: int) -> Token:
    return Token(kind="w", text=text, start=at, end=at)


def _plural(word: Token) -> bool:
    return word.low != word.lemma or word.lemma in lexicon.UNITS


def _filled(question: str, match: re.Match[str], words: Sequence[Token]) -> list[Token]:
    """A question's words with those of the notes in their places."""
    made: list[Token] = []
    at = words[0].start
    for word in question.split():
        if group := re.fullmatch(r"\{(\d)\}", word):
            first = match[0][: max(match.start(int(group[1]) + 1), 0)].count(" ")
            count = len((match[int(group[1]) + 1] or "").split())
            made += words[first : first + count]
        else:
            made.append(_word(word, made[-1].end if made else at))
    while made and made[-1].low == "of":
        made.pop()
    if made[0].text != "many":
        return made
    several = made[1].low in ("are", "were") or _plural(_last_named(made))
    return [*(_word(w, at) for w in ("how", "many" if several else "much")), *made[1:]]


def _last_named(made: Sequence[Token]) -> Token:
    """The last word of what is asked for: the one before the verb."""
    end = next((i for i, t in enumerate(made) if t.low in ("are", "is", "does", "per")), len(made))
    return made[end - 1]
