"""Rows of two that make a sum, and of two of three held against the third.

Two baskets of which the sum and the difference are told; the rain of two days against that of
another day; passengers of two sorts who ride in vans. CCSSM (2010) 3.OA.D.8, 4.OA.A.3, 7.NS.A.3.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.reading.words.forms import Named, form, heads, one_of, same
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set

# -- two of one sort, their sum and their difference

_ALL = r"(?:altogether|in all|together|in total)"
_HOLD = r"(?:hold|have|contain|held|had|contained)"
_HOLDS = r"(?:holds?|has|contains?|held|had|contained)"
_SIZES = word_set(
    "larger smaller large small big little bigger longer shorter long short first second "
    "upper lower top bottom left right red blue green yellow white black old new"
)


def _one_of_two(given: Named) -> str | None:
    """One of two, whose sum and difference are told."""
    pair = (given["p"], given["q"])
    sort = heads(given["b"])
    named = [heads(given[n]) for n in ("c", "d", "e") if n in given]
    if given["two"] != "2" or pair[0] == pair[1] or given["r"] not in pair or not {*pair} <= _SIZES:
        return None
    if any(words not in (sort, {"one"}) for words in named):
        return None
    if not all(same(given["x"], given[n]) for n in ("y", "z") if n in given):
        return None
    larger = (given["r"] == given["p"]) == (given["way"] == "more")
    total, apart = Fraction(given["t"]), Fraction(given["n"])
    made = (total + (apart if larger else -apart)) / 2
    if made <= 0 or apart >= total or (made.denominator != 1 and not heads(given["x"]) & UNITS):
        return None
    return "(t + n) ÷ 2" if larger else "(t − n) ÷ 2"


_BOTH_HOLD = one_of(
    rf"{{where}} ?<two> [b] {_HOLD} (?:a total of <t> [x]|<t> [x] {_ALL})",
    rf"there are <t> [x] (?:{_ALL} )?(?:in|on) <two> [b](?: {_ALL})?",
)
_APART = one_of(
    r"there are <n> (?P<way>more|fewer) [y] (?:in|on) the (?P<p>[a-z]+) [c] than (?:in |on )?the "
    r"(?P<q>[a-z]+) (?:[d]|<one>)",
    rf"the (?P<p>[a-z]+) [c] {_HOLDS} <n> (?:(?P<way>more|fewer) [y]|[y] (?P<way>more|less)) than "
    rf"the (?P<q>[a-z]+) (?:[d]|<one>)(?: does)?",
)
_OF_ONE = one_of(
    r"how many [z] (?:are|were) (?:there )?(?:in|on) the (?P<r>[a-z]+) [e]",
    r"how many [z] does the (?P<r>[a-z]+) [e] (?:hold|have|contain)",
    r"how many [z] (?:in|on) the (?P<r>[a-z]+) [e]",
)
SUMS = (
    form(
        "a sum and a difference",
        rf"{_BOTH_HOLD}\. {_APART}\. {_OF_ONE}",
        _one_of_two, unit="x", says="altogether together in all total more fewer than small first "
        "second left one less",
        clue="more fewer less",
    ),
)  # fmt: skip
"""How much one of two holds, where the sum and the difference are told."""

# -- two of three against the third


def _two_against_one(given: Named) -> str | None:
    days = [given["da"], given["db"], given["dc"]]
    pair, alone = {given["p"], given["q"]}, given["r"]
    units = {one(given[n]) for n in ("u", "v", "w", "t") if n in given}
    if len({*days}) != 3 or {*pair, alone} != {*days} or len(units) != 1:
        return None
    if given.get("k", "3") != "3":
        return None
    numbers = dict(zip(days, ("a", "b", "c"), strict=True))
    both = " + ".join(numbers[day] for day in days if day in pair)
    joined = sum(Fraction(given[numbers[day]]) for day in pair)
    third = Fraction(given[numbers[alone]])
    if given["swap"] == "one" and third > joined:
        return f"{numbers[alone]} − ({both})"
    return f"{both} − {numbers[alone]}" if given["swap"] == "two" and joined > third else None


def _two_more(given: Named) -> str | None:
    return _two_against_one({**given, "swap": "two"})


def _one_more(given: Named) -> str | None:
    return _two_against_one({**given, "swap": "one"})


_DAY = (
    r"(?:monday|tuesday|wednesday|thursday|friday|saturday|sunday|january|february|march|april"
    r"|june|july|august|september|october|november|december)"
)
_X = r"(?: of [_]| [_])?"
_PREP = r"(?:on|in)"
_THREE = (
    rf"(?:{{who}})?[_](?: on <k> days:)? <a> (?P<u>[a-z]+){_X}? {_PREP} (?P<da>{_DAY}) <b>(?: "
    rf"(?P<v>[a-z]+))?{_X}? {_PREP} (?P<db>{_DAY}) "
    rf"and <c>(?: (?P<w>[a-z]+))?{_X}? {_PREP} (?P<dc>{_DAY})"
)
_MORE = rf"how (?:many more (?P<t>[a-z]+){_X}|much more [_]) "
_JOINED = r"(?:together|combined|in all)"
_TWO = rf"{_PREP} (?P<p>{_DAY}) and (?:{_PREP} )?(?P<q>{_DAY})(?: {_JOINED})?"
THIRDS = tuple(
    form(
        "two against a third",
        rf"{_THREE}\. {_MORE}{asked}",
        against,
        unit="u", says="more than and together all in on combined much sold", clue="than",
    )
    for against, asked in (
        (_two_more, rf"(?:[_] )?{_TWO} than {_PREP} (?P<r>{_DAY})(?: in (?P<t>[a-z]+))?"),
        (_one_more, rf"(?:[_] )?{_PREP} (?P<r>{_DAY}) than {_TWO}(?: in (?P<t>[a-z]+))?"),
    )
)  # fmt: skip
"""How much more there was on two days together than on a third, or the other way round."""

# -- two sorts who ride together

_RIDE = r"(?:going|traveling|travelling|riding|driving|taking a trip)"
_CARRY = (
    r"(?:can |could |will )?(?:carry|carries|hold|holds|seat|seats|take|takes|fit|fits)(?: (?:at "
    r"most|up to))?"
)


def _rides(given: Named) -> str | None:
    """So many of both sorts, so many in each: the last one need not be full."""
    if given["x"] == given["y"] or not same(given["v"], given["w"]):
        return None
    who = {one(word) for word in given["p"].split()} - {"of", "these", "the", "those"}
    known = who <= _RIDERS or who <= heads(given["x"]) | heads(given["y"])
    counts = all(Fraction(given[n]).denominator == 1 for n in "abc") and Fraction(given["c"]) > 1
    both = not who & (heads(given["x"]) ^ heads(given["y"]))
    return "(a + b) ÷ c" if known and counts and both else None


_RIDERS = word_set("passenger person people rider them")
RIDES = (
    form(
        "two sorts together in groups",
        rf"(?:a (?:group|class|club) of )?<a> [x] and <b> [y] (?:is|are|were|was) {_RIDE} (?:to|on"
        rf"|from) [_]\. "
        rf"(?:each|every|one|a) [v] {_CARRY} <c> (?P<p>(?:of (?:them|these [a-z]+|the [a-z]+)"
        rf"|[a-z]+))\. "
        r"(?:what is the (?:least|fewest|smallest) number of|how many) [w] (?:is |are |will be "
        r"|that are )?"
        r"(?:needed|required)(?: to (?:take|carry|transport|bring) (?:everyone|everybody|them all"
        r"|all of them|the group)"
        r"(?: (?:in one trip|at once|at the same time|there|to the [_]))?)?",
        _rides, unit="w", says="each every least fewest all what one up most of same then",
        clue="needed required", rounding="up",
    ),
)  # fmt: skip
"""How many vans are needed for pupils and teachers together."""

ROWS = (*SUMS, *THIRDS, *RIDES)
