"""Rows of plain stories of two steps: a mixture, a fraction of the rest, a sum and a difference.

Seats that are empty, the rest of a rectangle, two amounts put together and shared, the same price.
CCSSM (2010) 3.OA.D.8, 4.OA.A.3, 5.NF.B.6, 6.RP.A.3b.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.reading.words.forms import Named, form, heads, one_of
from narrate.reading.words.lexicon import UNITS, VERBS, one
from narrate.reading.words.plain import word_set

_LEAD = r"(?:(?:on|at|for|in|during) (?:the |this )?[a-z']+(?: [a-z']+){0,4}? )?"
_WHOLE = word_set("whole entire total")


def _is(given: Named, first: str, *others: str) -> bool:
    """Whether things that are told have the same words, those that are not told left aside."""
    said = [heads(given[n]) - _WHOLE for n in (first, *others) if n in given]
    return all(words == said[0] for words in said)


def _units(given: Named, *names: str) -> bool:
    """Whether all are one measure."""
    said = {one(given[name]) for name in names if name in given}
    return len(said) == 1 and said <= UNITS


# -- a mixture

_MIX = r"(?: of (?:the [_]|this|it|them))?"
_MIXED = one_of(
    r"[_] (?:holds?|held|contains?|contained|has|had|weighs?) <m> (?P<u>[a-z]+) of [a] and [b]",
    r"(?:a|an|the) [_] of [a] and [b] (?:weighs?|weighed|holds?|measures?) <m> (?P<u>[a-z]+)",
)


def _other_in_it(given: Named) -> str | None:
    parts = (given["a"], given["b"])
    told, asked = heads(given["c"]), heads(given["d"])
    named = [heads(part) for part in parts]
    if (
        not _units(given, "u", "v", "w")
        or told == asked
        or Fraction(given["p"]) > Fraction(given["m"])
    ):
        return None
    return "m − p" if told in named and asked in named and named[0] != named[1] else None


MIXTURES = (
    form(
        "part of a mixture",
        rf"{_MIXED}(?:\. (?:if )?| and )(?:of (?:this|it|the [_]) )?<p> (?P<v>[a-z]+){_MIX} "
        rf"(?:is|are|was|were) [c](?:\. | )how many (?P<w>[a-z]+){_MIX} (?:is|are|was|were) [d]",
        _other_in_it, unit="w", says="if",
    ),
)  # fmt: skip

# -- a fraction of the rest

_IN = one_of(
    r"(?:is|are|was|were) (?:planted|grown|growing) (?:in|on)", r"grows? (?:in|on)", r"covers?",
    r"takes? up", r"fills?",
)  # fmt: skip
_REST = r"(?:the rest(?: of [q])?|the remaining [r](?: of [q])?|what is left(?: of [q])?)"


def _of_the_rest(given: Named) -> str | None:
    wholes = [heads(given[name]) - _WHOLE for name in ("w", "v", "q") if name in given]
    if not wholes[0] or any(not (words <= wholes[1] or wholes[1] <= words) for words in wholes):
        return None
    if _is(given, "a", "b"):
        return None
    return "g × (1 − f)" if _is(given, "b", "c") else None


RESTS = (
    form(
        "a fraction of the rest",
        rf"[a] {_IN} <f> of [v]\. [b] {_IN} <g> of {_REST}\. what (?:fraction|part) of (?:the "
        rf")?(?:whole |entire |total )?[w] "
        r"(?:is|are|was|were|has|have) (?:planted with |planted in |covered (?:with|by) "
        r"|growing )?[c]",
        _of_the_rest, says="rest remaining left what",
    ),
    form(
        "a fraction of the rest",
        r"(?P<who1>[a-z]+) (?:uses|used) <f> of [v] (?:for|in) [a]\. (?P<who2>[a-z]+) "
        r"(?:uses|used) <g>"
        rf" of {_REST} (?:for|in) [b]\. what (?:fraction|part) of (?:the )?(?:whole |entire "
        rf"|total )?[w] (?:did|does) (?P<who3>[a-z]+) use "
        r"(?:for|in) [c]",
        _of_the_rest, says="rest remaining left what then",
    ),
)  # fmt: skip

# -- a sum and a difference

_ALL = r"(?:altogether|in all|together|in total)"
_NAME = r"[a-z]+"


def _one_of_both(given: Named) -> str | None:
    pair = {given["fora"], given["forb"]}
    done = {VERBS.get(given[name], given[name]) for name in ("dida", "didb", "didc")}
    if len(pair) != 2 or {given["forc"], given["ford"]} != pair or given["fore"] not in pair:
        return None
    if len(done) != 1 or not _is(given, "x", "y", "z"):
        return None
    total, apart = Fraction(given["t"]), Fraction(given["d"])
    larger = (given["fore"] == given["forc"]) == (given["way"] == "more")
    made = (total + (apart if larger else -apart)) / 2
    measured = bool(heads(given["x"]) & UNITS)
    if made <= 0 or apart >= total or (made.denominator != 1 and not measured):
        return None
    return "(t + d) ÷ 2" if larger else "(t − d) ÷ 2"


_BOTH = one_of(
    rf"(?P<fora>{_NAME}) and (?P<forb>{_NAME}) (?P<dida>[a-z]+)(?: up| out)? <t> [x] {_ALL}",
    rf"{_ALL} (?P<fora>{_NAME}) and (?P<forb>{_NAME}) (?P<dida>[a-z]+)(?: up| out)? <t> [x]",
)
SUMS = (
    form(
        "a sum and a difference",
        rf"{_BOTH}\. (?P<forc>{_NAME}) (?P<didb>[a-z]+)(?: up| out)? <d> "
        rf"(?P<way>more|fewer|less) [y] than "
        rf"(?P<ford>{_NAME})(?: did| does)?\. how (?:many|much) [z] (?:did|does|do) "
        rf"(?P<fore>{_NAME}) "
        r"(?P<didc>[a-z]+)(?: up| out)?",
        _one_of_both, unit="x", says="up out together altogether in all total less",
    ),
)  # fmt: skip

# -- seats that are empty

_FULL = r"(?:filled|taken|full|occupied|in use)"
_SAT = rf"(?P<t>[a-z]+) (?:(?:were|are|have been) {_FULL}|(?P<sat>each sat in (?:one|an?) [q]))"


def _empty(given: Named) -> str | None:
    if not _is(given, "x", "y", "q") or one(given["h"].split()[-1]) != one(given["g"].split()[-1]):
        return None
    if "sat" not in given and not _is(given, "x", "t"):
        return None
    every = int(given["r"]) * int(given["s"])
    return "r × s − p" if int(given["p"]) <= every else None


EMPTY = (
    form(
        "places that are empty",
        r"(?:[_] (?:has|had) |there (?:are|were) )<r> [g] (?:of [x2] )?(?:with|of) <s> [x] "
        r"(?:in|on) each"
        rf" [h]{{where}}\. {_LEAD}<p> (?:of (?:the|these|those) )?{_SAT}{{where}}\. how many [y] "
        r"(?:were|are) (?:still )?(?:empty|free|not taken|not filled|unoccupied)",
        _empty, unit="x", says="each not",
    ),
)  # fmt: skip

# -- the rest of a rectangle

_COVERED = one_of(
    r"[x] (?:is|are|was|were) planted (?:in|on) <p> square (?P<v>[a-z]+) of (?:the [_]|it)",
    r"[x] covers? <p> square (?P<v>[a-z]+) of (?:the [_]|it)",
)
_REST_OF_IT = one_of(
    r"[y] (?:is|are|was|were) planted (?:in|on) the rest(?: of (?:the [_]|it))?",
    r"[y] covers? the rest(?: of (?:the [_]|it))?",
    r"the rest(?: of (?:the [_]|it))? (?:is|are) (?:planted with |covered (?:with|by) |for )?[y]",
)


def _rest_of_area(given: Named) -> str | None:
    if not _units(given, "u", "w", "v", "s") or "and" in f" {given['y']} ".split():
        return None
    area, part = Fraction(given["l"]) * Fraction(given["b"]), Fraction(given["p"])
    return (
        "l × b − p" if _is(given, "y", "z") and not _is(given, "x", "y") and part < area else None
    )


RECTANGLES = (
    form(
        "the rest of an area",
        r"(?:a|the|one) rectangular [_] (?:is|measures) <l> (?P<u>[a-z]+) (?:long )?(?:and|by) <b> "
        rf"(?P<w>[a-z]+)(?: wide)?\. {_COVERED}\. {_REST_OF_IT}\. how many square (?P<s>[a-z]+)"
        r"(?: of (?:the [_]|it))? (?:is|are|was|were) (?:planted with |covered (?:with|by) "
        r"|for )?[z]",
        _rest_of_area, says="rest square rectangular",
    ),
)  # fmt: skip

# -- two put together and shared

_HAS = r"(?:weighs?|weighed|holds?|held|contains?|contained|has|had)"
_SHARED = one_of(
    r"(?:he|she|they|{who})(?:divides?|divided|pours?|poured|shares?|shared|splits?|split"
    r"|puts?) all "
    r"(?:of )?(?:the [y]|it) (?:equally|evenly) (?:among|into|between|in) <n> [k]",
    r"(?:all (?:of )?)?the [y] (?:is|are|was|were) (?:divided|shared|split|poured) "
    r"(?:equally|evenly) "
    r"(?:among|into|between) <n> [k]",
)


def _shared(given: Named) -> str | None:
    if given["two"] != "2" or not _units(given, "u", "v", "w"):
        return None
    each = one(given["asks"].split("each ")[-1].split()[0])
    groups = _is(given, "g", "h") and each == one(given["k"].split()[-1])
    known = all(heads(given[name]) <= heads(given["x"]) for name in ("y", "z") if name in given)
    return "(a + b) ÷ n" if groups and known else None


SHARED = (
    form(
        "both shared",
        r"(?:{who}(?:has|had|bought) |there (?:are|were) )<two> [g] of [x]\. (?:<one>|one) [h] "
        rf"{_HAS} <a> (?P<u>[a-z]+) and the other(?: [h])? {_HAS} <b> (?P<v>[a-z]+)\. {_SHARED}\. "
        r"how many (?P<w>[a-z]+)(?: of [z])? (?P<asks>(?:does|do|did|will|are|is) [a-z' "
        r"]*?each [a-z']+"
        r"(?: get| hold)?)",
        _shared, unit="w", says="other all equally each share split",
    ),
)  # fmt: skip


# -- the same price


def _same_price(given: Named) -> str | None:
    alike = _is(given, "x", "y") and _is(given, "u", "v", "w")
    return "p ÷ a × b" if alike and Fraction(given["a"]) else None


_SAME = r"at (?:the same|this|that) (?:price|rate)(?: per (?P<w>[a-z]+))?"
_FOR_SO_MANY = one_of(
    r"<a> (?P<u>[a-z]+) of [x] costs? <$p>",
    r"{who}(?:paid|pays|spent) <$p> (?:for|on) <a> (?P<u>[a-z]+) of [x]",
    r"{who}(?:bought|buys) <a> (?P<u>[a-z]+) of [x] for <$p>",
)
PRICES = (
    form(
        "same price",
        rf"(?:if )?{_FOR_SO_MANY}(?:\.| ) ?(?:{_SAME} )?"
        r"(?:what (?:is|was|would be) the (?:total )?cost of|(?:how much|what) (?:would|will|do"
        r"|does)) <b> "
        rf"(?P<v>[a-z]+)(?: of [y])?(?: cost)?(?: {_SAME})?",
        _same_price, unit="dollar", says="if same per would what",
    ),
)  # fmt: skip

ROWS = (*MIXTURES, *RESTS, *SUMS, *EMPTY, *RECTANGLES, *SHARED, *PRICES)
