"""Rows of a price and a percent of it: discounts, taxes, tips, interest (CCSSM 2010, 7.RP.A.3).

What is told and what is asked are said in many ways each, any of the one with any of the other.
"""

from __future__ import annotations

from narrate.reading.words.forms import Form, form, one_of

_BUYS = (
    r"(?:buys|bought|wants to buy|is buying|plans to buy|orders|ordered|is going to buy|chose"
    r"|picked out)"
)
_KIND_OF = r"(?:regular|original|usual|list|full|normal|marked|ticket)"
_COSTS = (
    rf"(?:(?:(?:regularly|normally|usually|originally) )?(?:costs?|sells? for|sold for)"
    rf"|(?:is|was) (?:(?:regularly|normally|usually|originally) )?(?:priced|marked|sold) at"
    rf"|has an? (?:{_KIND_OF} )?price of|is)"
)
_LISTED = (
    rf"(?:a|an|the|one|this) [x] {_COSTS} <$p>",
    rf"the (?:{_KIND_OF} )?(?:price|cost) (?:of|for) (?:a|an|the) [x] (?:is|was) <$p>",
    rf"{{who1}}{_BUYS} (?:a|an|the) [x] (?:that|which) {_COSTS} <$p>",
    rf"{{who1}}{_BUYS} a <$p> [x]",
)
_LIST_PRICED = one_of(*_LISTED)
_PRICED = one_of(*_LISTED, rf"{{who1}}{_BUYS} (?:a|an|the) [x] (?:for|at|priced at) <$p>")
"""What something costs; what it was bought for may be less than that already."""

_MEAL = r"(?:bill|check|meal|lunch|dinner|breakfast|haircut|taxi ride|cab ride)"
_BILL = one_of(
    rf"{{who}}{_MEAL}(?: [_])? (?:was|is|costs?|came to|totaled) <$p>",
    rf"the (?:total )?cost of {{who}}{_MEAL}(?: [_])? (?:was|is|came to) <$p>",
    rf"{{who}}(?:spent|spends|paid) <$p> (?:on|for) {{who}}{_MEAL}",
    rf"{{who}}(?:had|got|has|received|ordered|ate) (?:a |an )?(?:<$p> {_MEAL}|{_MEAL} that cost"
    r" <$p_0>)",
)
"""What a meal or a service costs."""

_OFF = one_of(
    r"(?:it|[_]|{who2}[_])?(?: ?(?:is|was|are|goes))?(?: now)? ?(?:on sale (?:for|at)|marked down"
    r"(?: by)?|reduced by|marked|discounted(?: by)?|selling (?:for|at)) <r%>(?: off| less)?"
    r"(?: (?:the|its) (?:regular |original )?price)?",
    r"(?:it|[_]) (?:is|was) <r%> off(?: (?:the|its) (?:regular |original )?price)?",
    r"{who2}(?:has|had|uses|used|is using|gets|got|receives) an? (?:coupon (?:for|worth) )?<r%>"
    r" (?:off|discount|off coupon|discount coupon)(?: (?:on|of|off) (?:the|its) [_])?",
    r"{who2}(?:offers|offered|is offering|gives|gave|is having|has) an? (?:sale (?:of|for) "
    r"|discount"
    r" of )?<r%>(?: (?:discount|off sale|discount sale|off|sale))?(?: (?:on|off) (?:the|its|all)"
    r" [_])?",
    r"(?:the|a) discount (?:is|was|of) <r%>(?: is given)?",
    r"(?:during|at|in) a(?: [_])? sale (?:it|[_]) (?:is|was) (?:marked down|reduced by|discounted"
    r"(?: by)?) <r%>",
)
"""By how much a price is less."""

_TAX = one_of(
    r"(?:the )?(?:state |local )?(?:sales )?tax(?: rate)?(?: on [_])? (?:is|was|of) <r%>"
    r"(?: of the (?:price|cost))?(?: is added(?: to [_])?)?",
    r"there (?:is|was) an? <r%> (?:sales )?tax(?: on [_])?",
    r"{who2}(?:pays|paid|has to pay|must pay|also pays|had to pay) (?:an? )?<r%> (?:in )?(?:sales"
    r" )?tax"
    r"(?: on [_])?",
    r"an? <r%> sales tax is added(?: to [_])?",
)
"""What tax is put on a price."""

_TIP = one_of(
    r"{who2}(?:leaves?|left|gives?|gave|adds?|added|pays?|paid|wants? to (?:leave|give|pay)"
    r"|decides? to (?:leave"
    r"|give)|decided to (?:leave|give)|plans? to (?:leave|give)|will leave|would like to leave"
    r"|tips?"
    r"|tipped)(?: [_])?(?: an?)?(?: tip of)? <r%>(?: tip)?(?: (?:of|on|for) (?:it|that|the [_]"
    r"|his [_]"
    r"|her [_]))?",
    r"the tip (?:is|was|will be) <r%>(?: of the [_])?",
)
"""What tip is left."""

_DOES = r"(?:does|do|did|will|would|should|must)"
_PRICE_ASKED = one_of(
    r"what (?:is|was|will be|would be) (?:the|its) (?:sale|new|reduced|discounted|final)"
    r" (?:price|cost)(?: (?:of|for) [z])?(?: in dollars)?(?: after the discount)?",
    r"what (?:is|was|will be|would be) the (?:price|cost) of [z] (?:after the discount|on sale|"
    r"during the sale|with the (?:coupon|discount)|after the [_] is applied)",
    rf"how much {_DOES} [z] cost(?: (?:now|on sale|during the sale|after the discount|with the"
    r" (?:coupon|discount)))?",
    rf"how much {_DOES} {{who3}}pay(?: for [z])?(?: (?:after the discount|with the (?:coupon|"
    r"discount)|before tax))?",
)
_SAVED_ASKED = one_of(
    r"what (?:is|was|will be) the (?:amount of the )?discount(?: on [z])?(?: in dollars)?",
    rf"how much (?:money )?{_DOES} {{who3}}save(?: (?:on|by|with) [z])?",
    r"how much (?:is|was) the discount(?: in dollars)?",
    r"by how much (?:is|was) the price (?:reduced|lowered)",
)
_TOTAL_ASKED = one_of(
    r"what (?:is|was|will be|would be) (?:the|his|her|their) total(?: (?:cost|price|bill|amount"
    r"|charge))?(?: (?:of|for) [z])?(?: (?:including|with) (?:the )?(?:sales )?(?:tax|tip))?",
    r"what (?:is|was|will be) the (?:final |total )?(?:cost|price) of [z] (?:including|with|after)"
    r" (?:the )?(?:sales )?(?:tax|tip)",
    r"what (?:is|was|will be) the total (?:amount|cost|price|bill) (?:that )?{who3}(?:paid|pays"
    r"|spent"
    r"|will pay|should pay|must pay)(?: for [z])?(?: (?:including|with) (?:the )?(?:tax|tip))?",
    rf"(?:what is the total amount|how much(?: money)?|what total amount) (?:{_DOES}"
    rf" )?{{who3}}(?:will )?"
    r"(?:pay|spend)(?: for [z])?(?: (?:in all|in total|altogether|including (?:the )?(?:sales"
    r" )?(?:tip"
    r"|tax)|with (?:the )?(?:tip|tax))){1,2}",
    rf"how much {_DOES} [z] cost (?:in all|in total|altogether|including (?:the )?(?:sales"
    r" )?(?:tip|tax)"
    r"|with (?:the )?(?:sales )?tax)",
)
_TAX_ASKED = one_of(
    r"(?:how much|what) (?:is|was|will be) the (?:amount of (?:the )?)?(?:sales )?tax"
    r"(?: (?:on|for) [z])?(?: in dollars)?",
    rf"how much (?:sales )?tax {_DOES} {{who3}}pay(?: (?:on|for) [z])?",
    rf"how much {_DOES} {{who3}}pay in (?:sales )?tax(?: (?:on|for) [z])?",
)
_TIP_ASKED = one_of(
    r"(?:how much|what) (?:is|was|will be|should be|will|should) the (?:amount of the )?tip(?: be)?"
    r"(?: in dollars)?",
    r"(?:how much|what) (?:is|was) the (?:amount of the )?tip (?:that )?{who3}(?:left|leaves|will"
    r" leave"
    r"|should leave|paid|gave)",
    rf"(?:how much(?: money)?|what amount) {_DOES} {{who3}}(?:leave|give|tip|pay)(?: (?:as|for)"
    r" (?:a|the|"
    r"his|her|their) tip)?",
    rf"how much (?:of a )?tip {_DOES} {{who3}}(?:leave|give|pay)",
)

_LESS, _MORE, _PART = "p − p × r ÷ 100", "p + p × r ÷ 100", "p × r ÷ 100"
_SAID = (
    "if what when tip tax total discount off including in all altogether less after before price"
)


def _told(kind: str, priced: str, percent: str, asked: str, work: str) -> tuple[Form, ...]:
    """A price, then a percent of it, and what is asked of them."""
    return (
        form(
            kind,
            rf"(?:if )?{priced}(?:\.| and| but) (?:if )?{percent}\.? {asked}",
            work, unit="dollar", says=_SAID,
        ),
    )  # fmt: skip


_ON_SALE = one_of(
    r"(?:a|an|the|this) <$p> [x] (?:is|was) (?:on sale (?:for|at)|marked down(?: by)?|reduced by"
    r"|discounted(?: by)?) <r%>(?: off| less)?",
    rf"(?:a|an|the) [x] (?:(?:that |which )?{_COSTS}|with an? (?:{_KIND_OF} )?price of) <$p> (?:is"
    rf"|was) (?:on sale (?:for|at)"
    r"|marked(?: down"
    r")?(?: by)?|reduced by|discounted(?: by)?|offered at) <r%>(?: off| less)?",
    rf"{{who1}}{_BUYS} (?:a|an|the) <$p> [x] (?:on sale for|at|with) (?:an? )?<r%>"
    r" (?:off|discount)",
    rf"{{who1}}{_BUYS} (?:a|an|the) [x] (?:that|which) (?:is|was) <r%> off the (?:{_KIND_OF}"
    r" )?price of"
    r" <$p>",
)
"""A price and what comes off, in one sentence."""


def _at_once(kind: str, told: str, asked: str, work: str) -> Form:
    return form(kind, rf"{told}\. {asked}", work, unit="dollar", says=_SAID)


_SALE_FIRST = form(
    "discount",
    rf"what (?:is|was|will be) the (?:sale|new|reduced|discounted|final) price of (?:a|an|the) [x] "
    rf"(?:(?:that |which )?{_COSTS}|with an? (?:{_KIND_OF} )?price of) <$p> (?:if|when) (?:it|the "
    rf"[_]) "
    r"(?:is|was) (?:on sale (?:for|at)|marked down(?: by)?|reduced by|discounted(?: by)?) <r%>(?: "
    r"off)?",
    _LESS, unit="dollar", says=_SAID,
)  # fmt: skip
"""What is paid for something on sale, asked first."""

_EACH = (
    r"(?:how much (?:did|does|do|will|should|must) each(?: of (?:them|the [z])| [z])? "
    r"(?:pay|owe|spend)"
    r"|what (?:is|was) (?:each (?:person|friend|one|[z])'s|the) share(?: of each(?: [z])?)?"
    r"|what (?:is|was) each [z]'s cost)"
)
_SHARED_BILL = form(
    "shared bill",
    r"<n> [x] (?:ordered|bought|paid for|had|got|shared|rented|ate) [_] for <$a> and (?:[_] for"
    r"|(?:gave|left)(?: [_])? a tip of|a tip of) <$b>\. (?:they|the (?:<n_0> )?[y]) "
    r"(?:shared|split|divided|will share|will split|will divide|share|split|divide) "
    r"(?:the (?:total |whole |full )?(?:cost|bill|price|total|amount)|this|it) "
    rf"(?:equally|evenly)(?: among (?:them|themselves))?\. {_EACH}",
    "(a + b) ÷ n", unit="dollar", says="shared share split equally each total equal",
)  # fmt: skip
"""Two amounts that several pay together, in equal shares."""

_REGULAR = r"that (?:regularly |normally |usually )?(?:costs?|sells for|is priced at) <$p>"
TURNED_ROUND = (
    form(
        "discount",
        r"all [x] are (?:on sale for |marked down )?<r%>(?: off)?\. what (?:is|will be) the "
        r"(?:sale |new )?"
        rf"price of (?:an?|one) [y] {_REGULAR}",
        _LESS, where="x=y", unit="dollar", says="all off",
    ),
    form(
        "tax",
        r"(?:the )?(?:state |local )?(?:sales )?tax(?: rate)? is <r%>\. (?:how much|what) "
        r"(?:sales )?tax is"
        r" (?:charged|paid|due|added)? ?(?:on|for) an? <$p> [x]",
        _PART, unit="dollar", says="tax",
    ),
    form(
        "discount",
        rf"{_LIST_PRICED}(?:\.| and| but) (?:it|[_])?(?: ?(?:is|was))?(?: now)? ?(?:on sale "
        rf"(?:for|at)"
        rf"|marked down|reduced by|marked) <f>(?: off)?(?: (?:the|its) (?:regular |original "
        rf")?price)?\. "
        rf"{_PRICE_ASKED}",
        lambda g: "p − f × p" if "/" in g["f"] else None,
        unit="dollar", says=_SAID,
    ),
)  # fmt: skip
"""A percent told before its price, and a fraction that comes off."""
ROWS = (
    _SHARED_BILL, *TURNED_ROUND,
    *_told("discount", _LIST_PRICED, _OFF, _PRICE_ASKED, _LESS),
    *_told("discount", _LIST_PRICED, _OFF, _SAVED_ASKED, _PART),
    *_told("tax", _PRICED, _TAX, _TOTAL_ASKED, _MORE),
    *_told("tax", _PRICED, _TAX, _TAX_ASKED, _PART),
    *_told("tip", _BILL, _TIP, _TIP_ASKED, _PART),
    *_told("tip", _BILL, _TIP, _TOTAL_ASKED, _MORE),
    _SALE_FIRST,
    _at_once("discount", _ON_SALE, _PRICE_ASKED, _LESS),
    _at_once("discount", _ON_SALE, _SAVED_ASKED, _PART),
    form(
        "interest",
        r"{who1}(?:put|puts|deposits|deposited|invests|invested|placed|saved|borrows|borrowed) <$p>"
        r"(?: (?:in|into|from) (?:a|an|the|his|her|their) [_])?(?: (?:that|which) (?:earns|pays"
        r"|charges)"
        r"| at|\. (?:it|the [_]) (?:earns|pays|charges)) (?:an? )?(?:annual )?(?:simple"
        r" )?(?:interest "
        r"(?:rate )?(?:of|at) )?<r%>(?: (?:annual )?simple (?:annual )?interest| interest)?"
        r"(?: (?:per|each|a|every) year| annually| yearly)?\. how much (?:simple )?interest"
        r" (?:will|does|"
        r"did|would) {who}(?:earn|pay|owe|make|have earned)(?: (?:in|after|at the end of|over"
        r"|for) <t>"
        r" years?)?",
        lambda g: "p × r ÷ 100 × t" if "t" in g else None,
        unit="dollar", says="after each every",
    ),
)  # fmt: skip
"""What comes off a price or on it, what it is then, and what money earns."""
