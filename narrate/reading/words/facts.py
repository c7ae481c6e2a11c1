"""A story before it is composed: its quantities and its question, and which of them go together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor

from narrate.exact.tree import Expr, Group, Op, Operation, Whole, value
from narrate.reading.words.clauses import Clause
from narrate.reading.words.lexicon import NO_THING, UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query

_KINDS = {
    "fruit": "apple orange banana peach pear plum grape mango lemon lime cherry kiwi berry "
    "apricot strawberry",
    "vegetable": "carrot leek potato onion tomato cucumber pepper bean pea corn radish turnip "
    "cabbage beet",
    "flower": "rose tulip daisy orchid lily daffodil sunflower marigold carnation violet pansy",
    "animal": "dog cat cow horse pig sheep goat chicken duck rabbit bird fish lion tiger bear "
    "monkey goose hen",
    "person": "boy girl man woman child adult student teacher parent kid pupil friend guest",
    "people": "boy girl man woman child adult student teacher parent kid pupil friend guest",
    "child": "boy girl kid", "student": "boy girl", "kid": "boy girl", "pupil": "boy girl",
    "bird": "duck goose hen chicken robin sparrow pigeon stork crow parrot",
    "pet": "dog cat rabbit hamster fish bird", "toy": "doll car ball truck block bear",
    "coin": "penny nickel dime quarter", "bulb": "tulip daffodil crocus hyacinth lily",
    "seedling": "tomato pepper cucumber lettuce cabbage leek bean pea sunflower",
}  # fmt: skip
KINDS = {kind: frozenset(row.split()) for kind, row in _KINDS.items()}
"""Things by a word for all of them: roses and tulips are flowers."""


PAID = word_set(
    "cost pay spend earn make charge save sell owe need buy collect raise receive get "
    "have give donate"
)
"""Verbs of a "how much" that asks for money, where the story tells of money."""


PIECES = frozenset({"piece", "item", "bunch", "head", "amount", "worth"})
"""Words for one of a thing: 3 pieces of candy are candy, 3 pages of stickers are pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What one row makes of a story: the expression, what it used, and which situation that is.

    `told` are the clauses without a number that it read: what changed an amount, who shares;
    `said` the words of the question by which it knew what is asked, told nowhere: boys, free.
    """

    tree: Expr
    used: tuple[Quantity, ...]
    situation: str
    unknown: str
    why: str = ""
    rounding: str = ""
    told: frozenset[int] = frozenset()
    said: frozenset[str] = frozenset()

    @property
    def places(self) -> frozenset[int]:
        """Where the quantities that it used stand."""
        return frozenset(at for q in self.used for at in (q.start, *q.parts))

    @property
    def value(self) -> Fraction:
        """Its exact value, rounded to a whole where the question asks for whole things."""
        exact = value(self.tree)
        if self.rounding == "up":
            return Fraction(ceil(exact))
        if self.rounding == "down":
            return Fraction(floor(exact))
        return exact


@dataclass(slots=True, kw_only=True)
class Story:
    """A story: clauses, quantities in order, the question. `text` in small letters.

    `heads` are all words of what is counted, `names` those of people and places, `owners` of all
    who have or do something, `known_words` all words said; `original` the quantities as the
    words tell them, before any were worked out.
    """

    text: str
    clauses: Sequence[Clause]
    quantities: Sequence[Quantity]
    query: Query
    heads: frozenset[str] = field(default_factory=frozenset)
    names: frozenset[str] = field(default_factory=frozenset)
    owners: frozenset[str] = field(default_factory=frozenset)
    known_words: frozenset[str] = field(default_factory=frozenset)
    original: Sequence[Quantity] = ()

    def __post_init__(self) -> None:
        self.original = self.original or self.quantities
        said = [t for c in self.clauses for s in c.stretches for t in s]
        first = {id(s[0]) for c in self.clauses for s in c.stretches if s}
        self.heads = frozenset(w for q in self.quantities for w in q.thing)
        self.owners = frozenset(w for c in self.clauses for w in c.who)
        self.known_words = frozenset(w for t in said for w in (t.lemma, VERBS.get(t.low, t.lemma)))
        named = {id(t) for c in self.clauses for t in c.subject}
        self.names = frozenset(
            t.lemma
            for t in said
            if t.text[:1].isupper()
            and t.low not in NO_THING
            and (id(t) in named or id(t) not in first)
        )
        asked = self.query.words - self.known_words
        meant = (c.who for c in self.clauses if {"she", "he"} & {t.low for t in c.subject})
        self.names |= {w for who in meant for w in who if w in asked}  # "she" is Ada

    @property
    def money_asked(self) -> bool:
        """Whether money is asked for."""
        query = self.query
        named = query.thing[-1:] in (("dollar",), ("money",))
        paid = query.kind == "much" and not query.thing and query.verb in PAID
        return named or (paid and any(q.money for q in self.quantities))

    def with_made(self, made: Sequence[Quantity], gone: set[int]) -> Story:
        """The story with amounts that were worked out for those they were worked out of."""
        kept = [q for q in self.quantities if q.start not in gone]
        return Story(
            text=self.text,
            clauses=self.clauses,
            quantities=sorted([*kept, *made], key=lambda q: q.start),
            query=self.query,
            original=self.original,
        )

    def of(self, thing: tuple[str, ...], sort: str = "amount") -> list[Quantity]:
        """The quantities of a sort that count a thing."""
        return [q for q in self.quantities if q.sort == sort and self.agrees(q, thing)]

    def agrees(self, q: Quantity, thing: tuple[str, ...]) -> bool:
        """Whether a quantity counts this thing, or a kind of it."""
        if not thing:
            return bool(q.thing)
        if thing == ("money",):
            return q.money or q.thing == thing
        if thing[-1] in ("piece", "item", "kind") and thing[:-1] and thing[-1] not in self.heads:
            thing = thing[:-1]
        head, also = thing[-1], thing[:-1]
        if set(q.thing) <= UNITS and (
            set(q.thing) <= set(thing) or self._said_before(q, head) or self._one_thing(head)
        ):
            return True
        named = self._same(head, q.head) or (head in q.thing and head in UNITS)
        named = named or (q.head in PIECES and any(self._same(head, w) for w in q.thing))
        if not named and (not set(also) & set(q.thing) & UNITS or self._other_thing(q, head)):
            return False
        telling = [w for w in also if w in self.heads]
        return all(w in q.thing or (q.borrowed and False) for w in telling)

    def _other_thing(self, q: Quantity, head: str) -> bool:
        """Whether an amount is of another thing than the one asked for: pounds of pears."""
        named = head in self.heads and head not in UNITS
        return named and bool(set(q.thing) - UNITS) and head not in q.thing

    def _said_before(self, q: Quantity, head: str) -> bool:
        """Whether a bare measure goes on from one that named the thing: 1/4 liter."""
        return any(
            p.head == head and set(q.thing) <= set(p.thing) and p.verb == q.verb
            for p in self.quantities
            if p is not q
        )

    def _one_thing(self, head: str) -> bool:
        """Whether the story measures one thing alone, and this is it: some ribbon, 3/4 yard."""
        known = [q for q in self.quantities if q.known]
        measured = len({frozenset(set(q.thing) & UNITS) for q in known}) == 1
        grouped = any(head in (*q.per, *q.of_one) or q.sort == "rate" for q in known)
        said = head in self.known_words and head not in UNITS
        return (
            measured and said and not grouped and all(set(q.thing) <= UNITS | {head} for q in known)
        )

    def _same(self, head: str, word: str) -> bool:
        return head == word or (head not in self.heads and word in KINDS.get(head, ()))


def told_apart(found: Sequence[Quantity], words: Iterable[str]) -> list[Quantity]:
    """Those among `found` that all telling words of a question name; none where no one is."""
    left = list(found)
    for word in words:
        having = [q for q in found if word in q.words]
        if having and len(having) < len(found):
            left = [q for q in left if q in having]
    return left


def joined(sign: Operation, *trees: Expr) -> Expr:
    """Amounts joined one by one by an operation, brackets where the meaning needs them."""
    made = trees[0]
    for tree in trees[1:]:
        made = Op(sign, _held(made, sign, right=False), _held(tree, sign, right=True))
    return made


def _held(tree: Expr, sign: Operation, *, right: bool) -> Expr:
    if not isinstance(tree, Op):
        return tree
    loose = tree.sign in "+−"
    needs = (
        (sign in "×÷" and loose) or (right and (sign == "−" and loose)) or (right and sign in "×÷")
    )
    return Group(tree) if needs else tree


def tree_of(q: Quantity) -> Expr:
    """The number of a quantity as it is written."""
    assert q.tree is not None
    return q.tree


def without_ones(tree: Expr) -> Expr:
    """An expression without steps that change nothing: 1 × 280 and 280 ÷ 1 are 280."""
    match tree:
        case Op("×", Whole(1), same) | Op("×" | "÷", same, Whole(1)):
            return without_ones(same)
        case Op(sign, left, right):
            return Op(sign, without_ones(left), without_ones(right))
        case Group(inner):
            bare = without_ones(inner)
            return Group(bare) if isinstance(bare, Op) else bare
        case _:
            return tree
