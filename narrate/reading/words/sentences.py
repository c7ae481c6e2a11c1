"""The sentences of a text in plain words, before they are cut in clauses."""

from __future__ import annotations

from collections.abc import Sequence

from narrate.reading.words.asking import asked_plainly
from narrate.reading.words.asks_work import asked_of_work
from narrate.reading.words.clauses import sentences
from narrate.reading.words.days import with_days_compared
from narrate.reading.words.shorter import shorter, with_a_for_one, with_one_of_each
from narrate.reading.words.token import Token
from narrate.reading.words.two import told_apart_by_order


def plain_sentences(read: Sequence[Token], *, asks_work: bool = False) -> list[list[Token]]:
    """The sentences of a text in plain words, a question for work as the one that it answers."""
    found = [asked_plainly(shorter(sentence)) for sentence in sentences(read)]
    found = with_a_for_one(with_one_of_each(told_apart_by_order(with_days_compared(found))))
    if asks_work:
        within = [(s, asked_of_work(s)) for s in found]
        found = [s if asked is None else asked for s, asked in within if asked != []]
    return [list(sentence) for sentence in found]
