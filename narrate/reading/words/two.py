"""Two things of one kind: one and another told apart, and the other where both together are told.

"One squash weighs 2 pounds. Another squash weighs 3 pounds" tells of the first and the second;
"two bags weigh 5 pounds together, one bag weighs 2 pounds" leaves the other (CCSSM 2010, glossary
Table 1, take apart, addend unknown).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from narrate.exact.tree import value, write_sum
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.lexicon import UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.token import Token


def told_apart_by_order(sentences: Sequence[list[Token]]) -> list[list[Token]]:
    """Sentences in which "one squash" and "another squash" are the first and the second."""
    ones = [(n, at, s[at + 1]) for n, s in enumerate(sentences) for at in _opening(s, ("one",))]
    others = [(n, at) for n, s in enumerate(sentences) for at in _opening(s, ("another",))]
    if len(ones) != 1 or len(others) != 1 or others[0] < ones[0][:2]:
        return list(sentences)
    (one_in, one_at, thing), (other_in, other_at) = ones[0], others[0]
    behind = sentences[other_in][other_at + 1]
    bare = behind.low in _SAYS
    if not bare and behind.lemma != thing.lemma:
        return list(sentences)
    made = [list(s) for s in sentences]
    second = made[other_in][other_at]
    named = [replace(thing, text=thing.lemma, start=second.end, end=second.end)] if bare else []
    made[other_in][other_at : other_at + 1] = [_called(second, "Second"), *named]
    made[one_in][one_at] = _called(made[one_in][one_at], "First")
    return made


def _called(word: Token, name: str) -> Token:
    return replace(word, kind="w", text=name, tree=None)


_SAYS = word_set("is was weighs weighed holds held measures measured costs cost has had contains")


def _opening(sentence: Sequence[Token], words: Sequence[str]) -> Iterator[int]:
    """Where a clause opens with one of the words and a name: one squash; and another."""
    for at, word in enumerate(sentence[:-1]):
        opens = not at or sentence[at - 1].low in (",", "and", "while", "but")
        named = sentence[at + 1].kind == "w" and sentence[at + 1].low not in ("of", "more")
        if word.low in words and opens and named:
            yield at


def other_of_two(story: Story) -> Iterator[Answer]:
    """Both of two together, and one of them: the other."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    counts = [q for q in known if q.value in (1, 2) and q.sort == "amount" and not q.asked]
    counts = [q for q in counts if q.before_verb or _is_cut(story, q)]
    counts = [q for q in counts if not set(q.thing) & UNITS]
    told = [q for q in known if q not in counts]
    if "other" not in query.lows or query.sign or query.than or query.per or len(told) != 2:
        return
    whole, part = told
    two = [q for q in counts if q.value == 2 and q.clause == whole.clause]
    one = [q for q in counts if q.value == 1 and q.clause == part.clause]
    plain = all(q.sort == "amount" and not q.more and not q.left and not q.equal for q in told)
    alike = whole.head == part.head and whole.money == part.money
    cut = [q for q in two if whole.start < q.start and _is_cut(story, q)]
    joint = whole.total and whole.verb == part.verb and not cut
    if not (two and plain and alike and (joint or cut) and not part.total and len(counts) < 3):
        return
    if len(counts) != len(two) + len(one) or not _names(story, two[0], one):
        return
    tree = write_sum([(1, tree_of(whole)), (-1, tree_of(part))])
    if value(tree) > 0:
        used = (whole, part, *counts)
        yield Answer(tree=tree, used=used, situation="take apart", unknown="addend")


def _is_cut(story: Story, q: Quantity) -> bool:
    """Whether a whole is cut into so many: a ribbon was cut into two pieces."""
    return re.search(r"\b(?:in|into) (?:exactly |just )?$", story.text[: q.start]) is not None


def _names(story: Story, two: Quantity, one: Sequence[Quantity]) -> bool:
    """Whether the two, the one and the other that is asked for are things of one name."""
    lows = story.query.lows
    at = lows.index("other")
    behind = lows[at + 1] if at + 1 < len(lows) else ""
    named = behind == two.head or not behind or behind in VERBS  # what does the other hold
    return bool(one) and (one[0].head == two.head or one[0].borrowed) and named
