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
from narrate.reading.words import lexicon
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


def other_named(story: Story) -> Iterator[Answer]:
    """Both of two together, and the one: the other, which the question names.

    Two jars hold 2 liters between them, the tall jar 1 liter: the short jar. The beans and the peas
    weigh 5 kilograms together, the beans 2 kilograms: the peas.
    """
    query = story.query
    known = [q for q in story.quantities if q.known]
    counts = [q for q in known if q.value == 2 and q.before_verb and not set(q.thing) & UNITS]
    told = [q for q in known if q not in counts]
    if len(told) != 2 or len(counts) > 1 or len(known) < len(story.quantities):
        return
    whole, part = told
    plain = all(q.sort == "amount" and not (q.more or q.left or q.equal or q.asked) for q in told)
    units = whole.head in UNITS or part.head in UNITS
    alike = whole.money == part.money and bool(
        whole.money or (set(whole.thing) & set(part.thing) & (UNITS if units else {whole.head}))
    )
    asked = query.sign or query.than or query.per or query.total or query.negative or query.began
    if not plain or not alike or asked or not _joint(story, whole) or _joint(story, part):
        return
    if not _other_is_named(story, whole, part, counts):
        return
    tree = write_sum([(1, tree_of(whole)), (-1, tree_of(part))])
    if value(tree) > 0:
        used = (whole, part, *counts)
        said = query.words - frozenset(query.thing)
        yield Answer(tree=tree, used=used, situation="take apart", unknown="addend", said=said)


_JOINT = re.compile(
    r"\b(?:between (?:them|the two)|together|altogether|combined|in all|in total)\b"
)


def _joint(story: Story, q: Quantity) -> bool:
    """Whether an amount is told of both together."""
    if q.clause >= len(story.clauses):
        return False
    words = story.clauses[q.clause].tokens
    return _JOINT.search(story.text[words[0].start : words[-1].end + 1]) is not None


def _other_is_named(
    story: Story, whole: Quantity, part: Quantity, counts: Sequence[Quantity]
) -> bool:
    """Whether the part is of the one of the two, and the question names the other."""
    kinds = frozenset(whole.thing) | frozenset(part.thing) | {story.query.verb, part.verb}
    asked = story.query.words - kinds - {"much", "many"}
    one = part.who - kinds
    if not one or not asked or part.verb != whole.verb or story.query.verb not in ("", part.verb):
        return False
    if asked & lexicon.ORDINALS - {"first", "second"}:
        return False
    if counts:
        head = counts[0].head
        return head in one and head in asked and bool(asked - one) and len(one) > 1 < len(asked)
    both = whole.who - kinds
    shared = one & asked
    return one | asked == both and bool(one - shared) and bool(asked - shared)


def _is_cut(story: Story, q: Quantity) -> bool:
    """Whether a whole is cut into so many: a ribbon was cut into two pieces."""
    return re.search(r"\b(?:in|into) (?:exactly |just )?$", story.text[: q.start]) is not None


def _names(story: Story, two: Quantity, one: Sequence[Quantity]) -> bool:
    """Whether the two, the one and the other that is asked for are things of one name."""
    lows = story.query.lows
    at = lows.index("other")
    behind = lows[at + 1] if at + 1 < len(lows) else ""
    named = behind == two.head or not behind or behind in VERBS  # what does the other hold
    if not one and re.search(r"\bone of (?:them|these|the two)\b", story.text):
        return named or behind == "one"
    return bool(one) and (one[0].head == two.head or one[0].borrowed) and named
