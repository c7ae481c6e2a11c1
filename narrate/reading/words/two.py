"""Two things of one kind: one and another told apart, and the other where both together are told.

"One squash weighs 2 pounds. Another squash weighs 3 pounds" tells of the first and the second;
"two bags weigh 5 pounds together, one bag weighs 2 pounds" leaves the other (CCSSM 2010, glossary
Table 1, take apart, addend unknown).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from narrate.exact.tree import value, write_sum
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.token import Token


def told_apart_by_order(sentences: Sequence[list[Token]]) -> list[list[Token]]:
    """Sentences in which "one squash" and "another squash" are the first and the second."""
    opening = [(n, _opens(s, "one")) for n, s in enumerate(sentences)]
    second = [(n, _opens(s, "another")) for n, s in enumerate(sentences)]
    ones = [(n, thing) for n, thing in opening if thing]
    others = [(n, thing) for n, thing in second if thing]
    if len(ones) != 1 or len(others) != 1 or ones[0][1] != others[0][1]:
        return list(sentences)
    names = {ones[0][0]: "First", others[0][0]: "Second"}
    return [
        [replace(s[0], kind="w", text=names[n], tree=None), *s[1:]] if n in names else s
        for n, s in enumerate(sentences)
    ]


def _opens(sentence: Sequence[Token], word: str) -> str:
    """What a sentence names that begins "one squash", "" where it begins otherwise."""
    first = sentence[0].low == word and len(sentence) > 2 and sentence[1].kind == "w"
    return sentence[1].lemma if first and sentence[1].low not in ("of", "more") else ""


def other_of_two(story: Story) -> Iterator[Answer]:
    """Both of two together, and one of them: the other."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    counts = [q for q in known if q.value in (1, 2) and q.before_verb and q.sort == "amount"]
    told = [q for q in known if q not in counts]
    if "other" not in query.lows or query.sign or query.than or query.per or len(told) != 2:
        return
    whole, part = told
    two = [q for q in counts if q.value == 2 and q.clause == whole.clause]
    one = [q for q in counts if q.value == 1 and q.clause == part.clause]
    plain = all(q.sort == "amount" and not q.more and not q.left and not q.equal for q in told)
    alike = whole.head == part.head and whole.verb == part.verb and whole.money == part.money
    if not (two and plain and alike and whole.total and not part.total and len(counts) < 3):
        return
    if len(counts) != len(two) + len(one) or not _names(story, two[0], one):
        return
    tree = write_sum([(1, tree_of(whole)), (-1, tree_of(part))])
    if value(tree) > 0:
        used = (whole, part, *counts)
        yield Answer(tree=tree, used=used, situation="take apart", unknown="addend")


def _names(story: Story, two: Quantity, one: Sequence[Quantity]) -> bool:
    """Whether the two, the one and the other that is asked for are things of one name."""
    lows = story.query.lows
    at = lows.index("other")
    behind = lows[at + 1] if at + 1 < len(lows) else ""
    return bool(one) and one[0].head == two.head == behind
