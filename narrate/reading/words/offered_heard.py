"""A third look at a line that is offered: whether it answers to every loaded word of its story.

A teacher pastes what is offered, so a line stands only where nothing of the story speaks of more
than it does: a word of groups needs groups in the line, some that nobody counted leave no sum, what
could have been is not what was.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from narrate.reading.vetoes.vetoed import vetoed
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_shape import Offer
from narrate.reading.words.tokens import tokens
from narrate.reading.words.witness import MEASURE_OF


@dataclass(frozen=True, slots=True)
class Heard:
    """Words of the story and of its question, and the lines that do not answer to them."""

    told: str
    asked: str
    line: str
    but: str = ""


_ANY = r".*"
_NO_GROUPS = r"[^×÷]*"
_NO_PRODUCT = r"[^×]*"
_NO_SHARE = r"[^÷]*"
_ONLY_SUM = r"[^×÷−]*"
_NO_LESS = r"[^−÷/]*"

_UNSURE = 5
"""So many rows, the first ones, are of what is not certain to have happened, or went back."""

_ROWS = (
    # -- what is not, or not yet, or only could have been
    Heard(r"(?:would|could|might|should) (?:still |only )?have|if [^.?!]* had\b", "", _ANY),
    Heard(
        r"plan(?:s|ned)?|hop(?:es|ed)|suppos\w+|intend\w*|expect\w*|instead|pretend\w*", "", _ANY
    ),
    Heard(r"wishe[sd]|wanted|tried", "", _ANY, "how many more|how much more"),
    Heard(
        r"at (?:least|most)|up to|about \d|around \d|almost|nearly|approximately|maximum|minimum"
        r"|budget",
        "",
        _ANY,
    ),
    # -- what goes from one to the other and back
    Heard(
        r"trad\w+|swap\w*|exchang\w+|ow(?:es?|ed|ing)|borrow\w*|lend\w*|lent|loan\w*|debts?"
        r"|transfer\w*|mov(?:ed|es?)|shift(?:s|ed)|return(?:s|ed)",
        "",
        _ANY,
        r"borrow\w*|returned|moved",
    ),
    Heard(r"back", "", _ANY, "change|back"),
    Heard(
        r"except|besides|sqrt|to beat|including (?:him|her|them|it|his)\w*|profits?|revenue"
        r"|average|(?:half|one|another) more|same way|again"
        r"|another (?:set|round|time)|round trip|unique|different (?:colors|kinds)",
        "",
        _ANY,
        "average|mean|except|profit|different",
    ),
    Heard(r"in \d{4}|in \d+ years|years (?:ago|from now|later|before|after)", "old", _ANY),
    # -- at the same work, in pairs, between
    Heard(
        r"pairs|(?<!a )pair|couple|doubl\w+|tripl\w+|halve[sd]|between every|between each|in half"
        r"|in common|neither",
        "",
        _ANY,
    ),
    Heard(r"overlap\w*|(?:like|in|do|to) both|at least one of", "", r"[^−]*|[^+]*"),
    # -- what each is
    Heard(
        r"each|every|per|apiece|daily|weekly|monthly|hourly|yearly|annual\w*|(?:a|an) (?:day|week"
        r"|month|year|hour|minute|second)",
        "",
        _NO_GROUPS,
    ),
    Heard(
        r"shar(?:es?|ed|ing)|split\w*|divid\w+|equal(?:ly)?|even(?:ly)|the same (?:number|amount)"
        r"|times",
        "",
        _NO_GROUPS,
    ),
)


def unheard(story: Told, text: str, made: Offer) -> str:
    """Why a line is not offered, "" where nothing speaks against it."""
    if reason := vetoed(text, made.tree):
        return reason
    if not story.question or _is_part_unread(text) or any(not a.worth for a in made.amounts):
        return "a part is not read"
    if _are_of_unlike_units(made):
        return "one is told in another unit"
    relations = [a for a in story.amounts if a.role in ("times", "into", "part")]
    if len(re.findall(r"\bas (?:many|much)\b", story.text)) > len(relations):
        return "one is as much as another"
    return next((row.told or row.asked for row in _ROWS if _is_against(row, story, made.line)), "")


def _are_of_unlike_units(made: Offer) -> bool:
    """Whether a line holds two units of one measure: 3 meters, 80 centimeters."""
    units = {w for a in made.amounts for w in (*a.names, *a.per) if w in UNITS}
    kinds = [_MEASURES[unit] for unit in units if unit in _MEASURES]
    return len(kinds) > len(set(kinds))


_MEASURES = MEASURE_OF | dict.fromkeys(("second", "minute", "hour", "day", "week"), "time")


def loaded(sentence: str) -> bool:
    """Whether a sentence tells what could have been, or what goes to and fro, beside amounts."""
    return any(re.search(rf"\b(?:{row.told})\b", sentence.lower()) for row in _ROWS[:_UNSURE])


def _is_against(row: Heard, story: Told, line: str) -> bool:
    return (
        re.fullmatch(row.line, line) is not None
        and (not row.told or story.says(row.told))
        and (not row.asked or story.asks(row.asked))
        and not (row.but and story.asks(row.but))
    )


_PART = re.compile(
    r"\b(?:a|one) (?:third|quarter|fourth|fifth|sixth|eighth|tenth)\b", re.IGNORECASE
)


def _is_part_unread(text: str) -> bool:
    """Whether a part told in words is read as no number: and a third are playing."""
    read = {t.start for t in tokens(text) if t.kind == "n"}
    return any(found.start() not in read for found in _PART.finditer(text))
