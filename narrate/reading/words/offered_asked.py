"""A story as far as it is understood: its amounts with their roles, and in which ways it asks.

Nothing here need be certain: it is only for lines that are offered, which a teacher looks at.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from narrate.reading.words.clauses import Clause, clauses
from narrate.reading.words.lexicon import NO_THING, UNITS
from narrate.reading.words.offered_amounts import Amount, amounts_in
from narrate.reading.words.plain import plain
from narrate.reading.words.query import Query
from narrate.reading.words.question import find_question, read_question
from narrate.reading.words.sentences import plain_sentences
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens
from narrate.reading.words.whom import resolve


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A story, what it asks (`question` in small letters, `query` as far as read), its amounts."""

    text: str
    question: str
    query: Query
    clauses: Sequence[Clause]
    names: frozenset[str]
    amounts: Sequence[Amount]

    def asks(self, pattern: str) -> bool:
        """Whether the question holds one of the words."""
        return re.search(rf"\b(?:{pattern})\b", self.question) is not None

    def says(self, pattern: str) -> bool:
        """Whether the story, or its question, holds one of the words."""
        return re.search(rf"\b(?:{pattern})\b", self.text) is not None

    def of(self, role: str) -> list[Amount]:
        """The amounts that play a part."""
        return [amount for amount in self.amounts if amount.role == role]

    @property
    def head(self) -> str:
        """What is asked for in one word, "" unsaid; a measure goes first: cups of flour."""
        if self.asks(_MONEY):
            return "dollar"
        return next((w for w in self.query.thing if w in UNITS), self.query.head)

    @property
    def counts(self) -> bool:
        """Whether things are asked for one by one, so that no part of one is an answer."""
        many = re.search(r"\b(?:how many|number of)\b", self.question) is not None
        return many and self.head not in UNITS and not self.asks("times as|mean|average|fraction")


_MONEY = (
    r"how much (?:money|change)|cost|costs|price|pay|pays|paid|spend|spent|earn\w*|money|dollars"
    r"|worth|charge\w*"
)


def told(text: str) -> Told:
    """A text told as far as it goes. Never raises Declined."""
    found = plain_sentences(tokens(text))
    number, at, end = find_question(found) or _last_asked(found)
    asking = found[number] if number < len(found) else []
    before = [*found[:number], asking[:at], asking[end:], *found[number + 1 :]]
    made = [c for n, s in enumerate(before) if s for c in clauses(n, s)]
    asked = Clause(sentence=number, stretches=[asking[at:end]])
    asked.who = frozenset(t.lemma for t in asking[at:end] if t.text[:1].isupper())
    resolve(made, asked)
    query = _query(asking[at:end], made)
    inside = _inside(len(before), asking[at:end], query)
    question = plain(text)[asking[at].start :].lower() if at < len(asking) else ""
    length = asking[end - 1].end - asking[at].start if end > at else 0
    return Told(
        text=plain(text).lower(),
        question=question[:length],
        query=query,
        clauses=made,
        names=_names(text),
        amounts=amounts_in(text, [*made, *inside], question),
    )


def _names(text: str) -> frozenset[str]:
    """The words of a text that are always written with a capital letter."""
    words = [t for t in tokens(text) if t.kind == "w" and t.low not in NO_THING]
    small = {t.lemma for t in words if t.text[:1].islower()}
    return frozenset(t.lemma for t in words if t.text[:1].isupper()) - small


def _last_asked(found: Sequence[Sequence[Token]]) -> tuple[int, int, int]:
    """The last sentence that asks, as `find_question` gives it; behind them all where none asks."""
    begins = [
        (n, i)
        for n, s in enumerate(found)
        for i, t in enumerate(s)
        if t.low in ("how", "what", "which", "find")
    ]
    asking = [(n, 0) for n, s in enumerate(found) if s and s[-1].text == "?"]
    if not (begins or asking):
        return len(found), 0, 0
    number, at = (begins or asking)[-1]
    return number, at, len(found[number])


def _query(asking: Sequence[Token], made: Sequence[Clause]) -> Query:
    """What is asked, as far as it is read."""
    who = [c.who for c in made if c.who]
    last = who[-1] if who else frozenset()
    meant = dict.fromkeys(("he", "she", "it", "they", "his", "her", "their", "its"), last)
    read = read_question(asking, meant) if len(asking) > 1 else None
    if read is not None:
        return read
    words = frozenset(t.lemma for t in asking if t.kind == "w")
    counted = next((i for i, t in enumerate(asking) if t.low == "many"), None)
    thing = (asking[counted + 1].lemma,) if counted and counted + 1 < len(asking) else ()
    return Query(kind="many", thing=thing, words=words)


def _inside(number: int, asking: Sequence[Token], query: Query) -> list[Clause]:
    """The clauses inside the question, which may tell amounts of its own."""
    words = [t for t in asking if t.kind != "p"]
    made = clauses(number, words[2:] if [t.low for t in words[:1]] != ["find"] else words[1:])
    made = made if words[:1] and words[0].kind == "w" else clauses(number, words)
    for clause in made:
        clause.who = frozenset(t.lemma for t in clause.subject if t.kind == "w")
        if clause.base in ("do", ""):
            clause.base, clause.sort = query.verb, query.verb_sort
    return made
