"""A fourth look at a line that is offered: words beside which few lines are right.

A row is the shapes of lines, the words of the story, and those of its question. They stand for
what the line cannot hold: others who do so too, what is not so, what is left, what a thing holds.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_shape import Offer


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """Shapes of lines, and the words beside them that leave it open whether one is right.

    `told` stands before the question, `asked` in it; where the question says `but`, it is decided.
    """

    shape: str
    told: str = ""
    asked: str = ""
    but: str = ""


_ANY = r".*"
_PLAIN = r"amount(?: [+−] amount)+"
_WITH_PLUS = r".*\+.*"
_NO_LESS = r"[^−]*"
_NO = r"not|no|none|never|nobody|nothing|neither|without|\w+n't"
_HOLDS = r"seats|allow(?:s|ed)|can (?:hold|seat|take|carry)|holds|fits|(?:room|space) for|capacity"
_REST = (
    r"(?:the|his|her|its|their) (?:rest|others)|remain\w*|left|alone|empty|full|of the \d+|will"
    r"|next|decid\w+|keeps?|kept"
)

_ROWS = (
    # -- others do so too, who are not in the line
    Doubt(shape=_ANY, told=r"both|likewise|as well|so (?:do|does|did)|as (?:do|does|did)|also|too"),
    Doubt(shape=_ANY, told=r"between", but="between them|altogether"),
    Doubt(shape=_ANY, told=r"the same (?!unit)|no longer|anyway|by mistake|pretend\w*"),
    # -- what is not so is not put together; what is left is none of a sum
    Doubt(shape=_NO_LESS, told=_NO),
    Doubt(shape=_WITH_PLUS, told=f"{_NO}|{_REST}"),
    Doubt(shape=_PLAIN, told=r"mean|average|perimeter|area|path|wide|weighs? [^.]*\bwith(?:out)?"),
    Doubt(shape=r"amount \+ amount", told=r"than|\w+er on|longer|taller|heavier|shorter|older"),
    Doubt(shape=_PLAIN, told=_HOLDS, but="more|other|fit|free|empty|left"),
    # -- the other way, or what is worked out is only a step
    Doubt(shape=r".*percent.*", asked=r"cheaper|save[ds]?|saving|less|more"),
    Doubt(shape=r"amount − amount", asked="the two|both|all|total|altogether|sum"),
)

_IN_DOUBT = (
    r"I do not (?:understand|see)|changes$|planned|almost|for certain|in another unit|than what"
    r"|somebody else's|more than one reading"
)


def in_doubt(understood: str) -> bool:
    """Whether the reason why a story is declined leaves no line certain."""
    return re.search(_IN_DOUBT, understood) is not None


def doubtful(made: Offer) -> bool:
    """Whether a line stands beside words that leave it in doubt."""
    said = any(re.fullmatch(row.shape, made.shape) and _says(row, made.story) for row in _ROWS)
    return said or ("part" in made.shape and _is_measured_part(made))


def _says(row: Doubt, story: Told) -> bool:
    before = story.text.replace(story.question, " ") if story.question else story.text
    return (
        (not row.told or re.search(rf"\b(?:{row.told})\b", before) is not None)
        and (not row.asked or story.asks(row.asked))
        and not (row.but and story.asks(row.but))
    )


def _is_measured_part(made: Offer) -> bool:
    """Whether a part measures something, or is told of another: 3/4 of a 2/3-pound bag."""
    text = made.story.text
    measured = any(re.match(r"\S+?-[a-z]", text[a.told.start :]) for a in made.of("part"))
    return measured or any(
        re.match(r"\d+/\d+ of\b", text[a.told.start :]) for a in made.of("amount")
    )
