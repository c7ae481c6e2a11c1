"""Rows of so many for so many, asked for another amount: rates, unit prices, scales, ratios.

CCSSM (2010) 6.RP.A.2, 6.RP.A.3, 7.RP.A.2, 7.G.A.1.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from narrate.reading.words.forms import Form, Named, form, heads, one_of
from narrate.reading.words.masking import amount

_DOES = r"(?:will|would|does|do|did|can|could|should|must)"
_RATE = (
    r"(?:at (?:this|that|the same|her|his|their|its) (?:same |steady |constant )?(?:rate|speed"
    r"|pace|"
    r"price|cost))"
)


def _ends(number: Fraction) -> bool:
    return (number * 100).denominator == 1


def _for_one(given: Named) -> str | None:
    """So many for one, where that comes out whole or in hundredths."""
    a, b = amount(given["a"]), amount(given["b"])
    return "a ÷ b × c" if b and _ends(a / b) else None


def _in_groups(given: Named) -> str | None:
    """How many times as much, where so many for one does not come out."""
    a, b, c = (amount(given[name]) for name in "abc")
    if not (a and b and c) or _ends(a / b):
        return None
    if (c / b).denominator == 1:
        return "c ÷ b × a"
    return "a ÷ (b ÷ c)" if (b / c).denominator == 1 else "a × c ÷ b"


def scaled(
    kind: str, words: str, where: str, unit: str, says: str = "", clue: str = ""
) -> tuple[Form, ...]:
    """`a` for `b`, and for `c`: by what it is for one, or else by how many times as much it is."""
    ways: tuple[tuple[str, Callable[[Named], str | None]], ...] = (
        (kind, _for_one),
        (f"{kind}, so many times", _in_groups),
    )
    return tuple(
        form(
            name,
            words,
            work,
            where=where,
            unit=unit,
            says=f"at this that same if times {says}",
            clue=clue,
        )
        for name, work in ways
    )


_IT_TAKES = one_of(
    rf"how (?:long|many [v]) {_DOES} it take (?:{{who}})?to [_] <c> [y](?: {_RATE})?",
    rf"how (?:long|many [v]) {_DOES} {{who}}(?:take|need) to [_] <c> [y](?: {_RATE})?",
    rf"how (?:long|many [v]) {_DOES} <c> [y] take(?: {{who}})?",
)
_KEEPS = (
    rf"(?:(?:if )?{{who}}(?:keeps?|continues?|works?|goes|go)(?: [_])? {_RATE} |{_RATE} |if [_]"
    rf" {_RATE} )"
)
_PACE = "rate speed pace every"
RATES = (
    *scaled(
        "same rate",
        rf"(?:{{who}})[_] <a> [x] (?:in|every) <b> [u]\. {_KEEPS}?how many [y]"
        rf"(?: (?:(?:of [_] )?{_DOES} [_]))? in <c> [v](?: {_RATE})?",
        "x=y u=v u~time", "y", "every keeps continues", _PACE,
    ),
    *scaled(
        "same rate",
        rf"(?:{{who}})[_] <a> [x] (?:in|every) <b> [u]\. {_KEEPS}?how many [y]"
        rf"(?: (?:(?:of [_] )?{_DOES} [_]))? for <c> [v]",
        "x=y u=v", "y", "every keeps continues", _PACE,
    ),
    *scaled(
        "same rate",
        rf"it (?:takes|took) (?:{{who}})?<a> [u] to [_] <b> [x]\. {_KEEPS}{_IT_TAKES}",
        "x=y u~time", "u", "keeps continues", "takes took",
    ),
    *scaled(
        "same rate",
        rf"if (?:{{who}})[_] <a> [x] (?:in|every) <b> [u] how many [y] {_DOES} [_] in <c> [v]"
        rf"(?: {_RATE})?",
        "x=y u=v u~time", "y", "every", "if",
    ),
    *scaled(
        "same rate",
        rf"(?:{{who}})[_] <b> [x] (?:in|every) <a> [u]\. {_RATE} how (?:long|many [v]) {_DOES}"
        r" it take "
        r"(?:{who})?to [_] <c> [y]",
        "x=y u~time", "u", "", _PACE,
    ),
)  # fmt: skip
"""As many in each unit of time."""
_SOLD = one_of(
    r"<b> [x] (?:cost|costs|sell for|sells for|are sold for|can be bought for) <$a>",
    r"{who}(?:sells?|sold|charges?) <b> [x] for <$a>",
    r"{who}(?:buys?|bought|paid for|can buy|gets?) <b> [x] for <$a>",
    r"{who}(?:pays?|paid|charges?|spent|spends) <$a> for <b> [x]",
    r"(?:the )?(?:cost|price) of <b> [x] is <$a>",
    r"[x] (?:cost|costs|sell for|sells for|are sold|are on sale|are) (?:at )?<b> for <$a>",
)
_WHERE_SOLD = r"(?:(?:at|in|on) (?:a|an|the|this|that|his|her) [_] )?"
PRICES = (
    *scaled(
        "same price",
        rf"{_WHERE_SOLD}(?:if )?{_SOLD}\.? (?:{_RATE} )?(?:how much|what) {_DOES} <c> [y] cost"
        rf"(?: {_RATE})?",
        "x=y", "dollar",
    ),
    *scaled(
        "same price",
        rf"{_WHERE_SOLD}(?:if )?{_SOLD}\.? (?:{_RATE} )?(?:what (?:is|will be|would be)|find) the "
        rf"(?:total )?(?:cost|price) of <c> [y](?: {_RATE})?",
        "x=y", "dollar", "total",
    ),
    *scaled(
        "same price",
        rf"{_WHERE_SOLD}(?:if )?{_SOLD}\.? (?:{_RATE} )?how much {_DOES} {{who}}(?:pay|spend"
        r"|charge) for "
        rf"<c> [y](?: {_RATE})?",
        "x=y", "dollar",
    ),
    *(
        form(
            "price of one",
            rf"{_WHERE_SOLD}(?:if )?{_SOLD}\.? {asked}",
            "a ÷ b", where=where, unit="dollar", says="per each one",
        )
        for asked, where in (
            (
                r"what (?:is|was) the (?:unit (?:price|cost|rate)|(?:price|cost)) (?:per|for"
                r" (?:one|each)"
                r"|of (?:one|each)) [y]",
                "x&y",
            ),
            (rf"how much (?:{_DOES}|is) (?:one|each|a|an|<one>) [y](?: cost)?", "x&y"),
            (r"what is the unit (?:price|cost)(?: of the [z])?(?: in dollars per [y])?", ""),
        )
    ),
    form(
        "unit rate",
        r"(?:what|which) is the unit rate (?:for|of) <a> [x] (?:in|per|for|every) <b> [u]",
        "a ÷ b", unit="x per u", says="per every what which", clue="rate",
    ),
)  # fmt: skip
"""So much for so many, and the price of one."""

_MEANS = r"(?:=|:|stands? for|represents?|shows?|equals?|is equal to|is|are|to)"
_HAS_SCALE = (
    r"(?:has|uses|used|with|is drawn (?:to|with|using)|was made (?:to|with|using)"
    r"|is made (?:to|with|using))"
)


def _scale(small: str, real: str) -> str:
    """What stands for what; the names of the two numbers are given."""
    told = rf"{small} [u] {_MEANS} {real} [v]"
    return one_of(
        rf"(?:on|in) (?:a|an|the|his|her) [m] (?:every )?{told}",
        rf"(?:the|a) scale (?:of|on|for|used for) (?:a|an|the|his|her) [m] is {told}",
        rf"{{who}}[m] {_HAS_SCALE} (?:a|the) scale (?:of |in which |where )?{told}",
        rf"(?:a|an|the) [m] {_HAS_SCALE} (?:a|the) scale (?:of |in which |where )?{told}",
    )


_SIZE = r"(?:length|width|height|distance|depth|size)"
_SPAN = r"(?:long|wide|tall|high|apart|deep)"
_TWO = r"(?:(?:the )?<pair> )?"
_ON_IT = one_of(
    rf"(?:if )?{_TWO}[_] (?:is|are|measures?) <c> [w](?: {_SPAN})? (?:on|in) (?:the|this|his"
    r"|her) [o]",
    rf"(?:if )?(?:on|in) the [o] {_TWO}[_] (?:is|are|measures?) <c> [w](?: {_SPAN})?",
    rf"(?:if )?the {_SIZE} (?:of|between|from) {_TWO}[_] (?:on|in) the [o] (?:is|measures) <c> [w]",
    rf"(?:if )?the {_SIZE} (?:on|in) the [o] (?:of|between|from) {_TWO}[_] (?:is|measures) <c> [w]",
)
_OFF_IT = r"(?P<r>[a-z'-]+(?: (?!on\b|in\b)[a-z'-]+){0,5}?)"
_IN_TRUTH = one_of(
    rf"what (?:is|are) the (?:actual|real|true) {_SIZE}(?: (?:of|between|from)"
    rf" {_TWO}{_OFF_IT})?(?: in"
    r" [y])?",
    rf"how (?:far apart|far|{_SPAN}) (?:is|are) (?:the (?:actual|real) )?{_TWO}{_OFF_IT}(?:"
    r" in real"
    r" life)?",
    rf"how many [y] {_SPAN} (?:is|are) the (?:actual|real) {_TWO}{_OFF_IT}",
)
_REAL = one_of(
    rf"(?:if )?(?:the|a|an) (?:actual|real) [_] (?:is|are|measures?) <c> [w](?: {_SPAN})?",
    rf"(?:if )?the (?:actual|real|true) {_SIZE} of [_] is <c> [w]",
)
_ON_THE_PLAN = one_of(
    rf"how {_SPAN} is the [o]",
    rf"how {_SPAN} is [r] (?:on|in) the [o]",
    rf"what is the {_SIZE} of (?:the )?(?:[r] (?:on|in) the )?[o](?: in [y])?",
)
_DRAWN = "scale map plan model drawing blueprint diagram"
SCALES = (
    *scaled(
        "scale", rf"{_scale('<b>', '<a>')}\. {_ON_IT}\.? {_IN_TRUTH}",
        "u=w u!v m=o r!m", "v", "every", _DRAWN,
    ),
    *scaled(
        "scale", rf"{_scale('<a>', '<b>')}\. {_REAL}\.? {_ON_THE_PLAN}",
        "v=w u!v m=o", "u", "every", _DRAWN,
    ),
)  # fmt: skip
"""What is so long on a map or plan, and how long it is."""

_RATIO_OF = one_of(
    r"(?:{who})?(?:the|a) ratio of [x] to [y]{where} (?:is|was) <n>(?: to |:| : )<m>",
    r"(?:in|at) [_] the ratio of [x] to [y] (?:is|was) <n>(?: to |:| : )<m>",
    r"{who}the ratio of [x] to [y]{where} (?:is|was) <n>(?: to |:| : )<m>",
)


def _of_all(given: Named) -> str | None:
    """One part of all, the ratio of its two parts told: all are neither the one nor the other."""
    first, second, all_, asked = (heads(given[name]) for name in ("x", "y", "c", "d"))
    if first <= all_ or second <= all_ or first == second:
        return None
    if all_ and not (all_ <= first and all_ <= second) and "sum" not in given:
        return None
    is_first, is_second = asked <= first, asked <= second
    if is_first == is_second:
        return None
    return f"k ÷ (n + m) × {'n' if is_first else 'm'}"


RATIOS = (
    form(
        "ratio",
        rf"{_RATIO_OF}\. (?:if )?(?:there (?:are|were) )(?:a total of )?<k> (?P<c>[a-z' ]+?)(?:"
        r" in (?:all|the [_]|his [_]|her [_])"
        r"|{where}| altogether| in total)?\.? how many of (?:them|the [e]) (?:are|were) [d]",
        _of_all, unit="d", says="total all", clue="ratio",
    ),
)  # fmt: skip
"""So many of the one to so many of the other, and how many there are in all."""

_SIMPLEST = r"(?: in (?:simplest|lowest|its simplest) (?:form|terms)| written in simplest form)?"


def _is_ratio(given: Named) -> str | None:
    """The ratio of two amounts told, or of one to both together."""
    first, second = heads(given["x"]), heads(given["y"])
    if first <= second or second <= first:
        return None
    amounts = {"a": first, "b": second}
    sides = [_side(given[name], amounts) for name in ("first", "second")]
    if None in sides or sides[0] == sides[1]:
        return None
    return f"{sides[0]} ÷ {sides[1]}"


def _side(named: str, amounts: dict[str, set[str]]) -> str | None:
    """The amount that a side of a ratio names: one of two, or all."""
    said = heads(named) - {"number"}
    if "total" in said or "all" in named.split():
        common = set.intersection(*amounts.values())
        return "(a + b)" if said - {"total", "all"} <= common else None
    hits = [name for name, words in amounts.items() if said and said <= words]
    return hits[0] if len(hits) == 1 else None


ASKED_RATIOS = (
    form(
        "ratio of two",
        r"(?:there (?:are|were)|{who}(?:has|had|holds?|contains?|bought|picked|planted|grew|uses?|"
        r"made|used)) <a> [x] and <b> [y]{where}\. what (?:is|was) the ratio of "
        rf"(?P<first>[a-z' ]+) to (?P<second>[a-z' ]+?){{where}}{_SIMPLEST}",
        _is_ratio, says="total all both", clue="ratio",
    ),
)  # fmt: skip
"""The ratio of two amounts."""

ROWS = (*RATES, *PRICES, *SCALES, *RATIOS, *ASKED_RATIOS)
