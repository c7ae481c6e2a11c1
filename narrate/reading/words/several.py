"""A whole of several parts of which all but one are told.

Three stages of which the first and the second are told; carrots, leeks and some onions, so many
vegetables in all (CCSSM 2010, glossary Table 1, take apart, addend unknown).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate.exact.tree import value, write_sum
from narrate.reading.words import lexicon
from narrate.reading.words.facts import KINDS, Answer, Story, tree_of
from narrate.reading.words.heard import only_counts
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.measured_amounts import measure_of
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity


def last_of_several(story: Story) -> Iterator[Answer]:
    """The one part of several that is not told."""
    query = story.query
    if query.than or query.sign or query.per or query.also or query.total or query.negative:
        return
    told = [q for q in story.quantities if q.known and not only_counts(story, q)]
    known = [q for q in told if not _counts_them(story, q)]
    wholes = [q for q in known if _is_of_all(story, q)]
    parts = [q for q in known if q not in wholes]
    if len(wholes) != 1 or not parts or any(map(_is_no_part, known)):
        return
    counts = [q for q in story.quantities if q.known and q not in known]
    owners = frozenset().union(*(q.who for q in parts)) & story.names
    if any(q.value != len(parts) + 1 for q in counts) or (
        owners and wholes[0].who & story.names - owners
    ):
        return
    if not (_next_in_order(story, parts) or _one_untold(story, wholes[0], parts)):
        return
    if len({measure_of(q) for q in known}) > 1 or len({q.money for q in known}) > 1:
        return
    tree = write_sum([(1, tree_of(wholes[0])), *((-1, tree_of(q)) for q in parts)])
    if value(tree) > 0:
        used = (wholes[0], *parts, *(q for q in told if q not in known))
        said = frozenset(query.lows) & lexicon.ORDINALS
        yield Answer(tree=tree, used=used, situation="take apart", unknown="addend", said=said)


def _counts_them(story: Story, q: Quantity) -> bool:
    """Whether a number counts those of which one is asked about: three crates hold 50 in all."""
    theirs = [p for p in story.quantities if p.known and p is not q and p.clause == q.clause]
    plain = q.sort == "amount" and q.before_verb and not (q.money or q.asked or q.more)
    all_of_them = len(theirs) == 1 and theirs[0].total and theirs[0].head != q.head
    return plain and all_of_them and q.head in story.query.words - set(story.query.thing)


def _is_of_all(story: Story, q: Quantity) -> bool:
    if q.asked:
        return False
    whole = {"whole", "entire", "total", "altogether"} & (q.who | story.clauses[q.clause].lows)
    alone = sum(t.kind == "n" for t in story.clauses[q.clause].tokens)
    return q.total or (bool(whole) and alone == 1)


def _is_no_part(q: Quantity) -> bool:
    odd = q.more or q.left or q.equal or q.asked or q.percent or q.partitive or q.periodic
    return q.sort != "amount" or bool(odd)


_ORDER = ("first", "second", "third", "fourth", "fifth", "sixth")


def _next_in_order(story: Story, parts: Sequence[Quantity]) -> bool:
    """Whether the parts told are the first, the second and so on, and the next one is asked for."""
    numbered = [(q.who | q.around) & lexicon.ORDINALS for q in parts]
    asked = frozenset(story.query.lows) & lexicon.ORDINALS
    order = [frozenset({name}) for name in _ORDER[: len(parts) + 1]]
    verbs = {q.verb for q in parts}
    return (
        len(verbs) == 1
        and len(parts) > 1
        and numbered == order[:-1]
        and asked in (order[-1], {"last"})
    )


_ANY = word_set("piece thing item object plant tree animal coin vehicle person child ball")


def _one_untold(story: Story, whole: Quantity, parts: Sequence[Quantity]) -> bool:
    """Whether one kind is named without a number beside those that are told: and some onions."""
    asked = story.query.thing
    untold = [q for q in story.quantities if not q.known]
    if len(untold) != 1 or untold[0].thing != asked or not asked or set(asked) & UNITS:
        return False
    beside = all(q.clause == untold[0].clause or q.verb == untold[0].verb for q in parts)
    same = all(q.who == untold[0].who and q.thing != asked for q in parts)
    heads = {q.head for q in (*parts, untold[0])}
    of_kind = whole.head in _ANY or len(heads & KINDS.get(whole.head, frozenset())) > 1
    return beside and same and (of_kind or heads == {whole.head})
