"""Rows of stories in fixed forms: rates, ratios, scales, percents (CCSSM 2010, 6.RP.A, 7.RP.A)."""

from __future__ import annotations

import re

from narrate.reading.words.forms import Case, Form, Named, form, same

_AT = r"(?:on|in|at) (?:a|an|the|his|her|their|this) [_](?: of [_])?"
_ARE = r"(?:there (?:are|were|will be)|{who})"
_GO = (
    r"(?:(?:drive|travel|cycle|walk|run|ride|bike|hike|row|swim|go|cover|sail|fly|jog)(?:e?[ds])?"
    r"|drove|ran|rode|swam|went|flew|goes|flies|jogged)"
)
_SAME_RATE = r"(?:at (?:the same|that|this) (?:steady )?(?:rate|speed|pace))"
_RATIO = (
    Case("c=x c!y d=y d!x", "k ÷ n × m"),
    Case("c=y c!x d=x d!y", "k ÷ m × n"),
)

RATES = (
    form(
        "same rate",
        rf"(?:{{who}})[_] <a> [x] in <b> [u]\. {_SAME_RATE} how many [y]"
        rf"(?: (?:will|would|does|did|can|could|do) [_])? in <c> [v]",
        "a ÷ b × c", where="x=y u=v u~time", unit="y",
    ),
    form(
        "same rate",
        rf"(?:{{who}})[_] <a> [x] in <b> [u]\. {_SAME_RATE} how far (?:will|would|does|did|can) "
        rf"[_] {_GO} in <c> [v]",
        "a ÷ b × c", where="x~length u=v u~time", unit="x",
    ),
    form(
        "same rate",
        rf"(?:{{who}})[_] <a> [x] in <b> [u]\. {_SAME_RATE} how many [v] (?:will|would|does|did) "
        rf"(?:it|he|she|they) (?:take|need)(?: {{who}})? to [_] <c> [y]",
        "c × b ÷ a", where="x=y u=v u~time", unit="v",
    ),
    form(
        "speed",
        rf"(?:{{who}}){_GO} <a> [x] in <b> [u]\. what (?:is|was) [_] average speed"
        r"(?: in [y] per [v])?",
        "a ÷ b", where="x~length u~time", unit="x per u",
    ),
    form(
        "time at a speed",
        rf"how (?:long|many hours) (?:will|would|does|did) it take (?:{{who}})?to {_GO} <d> [x] "
        r"at (?:a speed of |an average (?:speed|rate) of )?<s> [y] per hour",
        "d ÷ s", where="x=y x~length", unit="hour",
    ),
    form(
        "distance at a speed",
        rf"how (?:far|many [_]) (?:will|would|does|did|can) {{who}}{_GO} in <h> hours "
        r"at (?:a speed of |an average (?:speed|rate) of )?<s> [y] per hour",
        "s × h", where="y~length", unit="y",
    ),
    Form(
        "ratio",
        rf"(?:{_AT} )?the ratio of [x] to [y]{{where}} (?:is|was) <n>(?: to |:)<m>\. "
        rf"(?:if )?{_ARE} <k> [c]{{where}}\.? how many [d] (?:are|were)(?: there)?{{where}}",
        _RATIO, unit="d",
    ),
    Form(
        "ratio",
        rf"(?:{_AT} )?the ratio of [x] to [y]{{where}} (?:is|was) <n>(?: to |:)<m>\. "
        rf"(?:if )?{_ARE} <k> [c]{{where}}\.? how many [d] (?:does|did|do|will) {{who}}[_]",
        _RATIO, unit="d",
    ),
    Form(
        "ratio",
        rf"(?:{_AT} )?the ratio of [x] to [y]{{where}} (?:is|was) <n>(?: to |:)<m>\. "
        rf"(?:if )?there (?:are|were) <k> [c] (?:in all|altogether|in total){{where}}\.? "
        r"how many (?:of them |of the [_] )?are [d](?: are there)?",
        (Case("d=x d!y", "k ÷ (n + m) × n"), Case("d=y d!x", "k ÷ (n + m) × m")), unit="d",
    ),
    Form(
        "ratio",
        r"{who}[_] <n> [x] (?:for|to) every <m> [y]\. how many [d] (?:are|will be) "
        r"(?:needed|used|necessary) (?:for|with|to go with) <k> [c]",
        _RATIO, unit="d",
    ),
    Form(
        "ratio",
        r"{who}[_] <n> [x] (?:for|to) every <m> [y]\. (?:if {who}<k> [c] )?how many [d] (?:does|"
        r"did|do|will|should) {who}[_](?: (?:for|with|if {who}) ?<k2> [c2])?",
        (
            Case("c=x c!y d=y d!x", lambda g: None if "k2" in g else "k ÷ n × m"),
            Case("c=y c!x d=x d!y", lambda g: None if "k2" in g else "k ÷ m × n"),
        ),
        unit="d",
    ),
    Form(
        "scale",
        r"(?:on|in) (?:a|an|the) [m](?: of [_])? <n> [u] (?:stands? for|represents?|shows?|equals?"
        r"|is|are) <k> [v]\. (?:[_]|(?:the )?<two> [_]) (?:is|are|measures?) <a> [w]"
        r"(?: long| apart| wide| tall| high)?(?: (?:on|in) the [_])?\. "
        r"(?:how (?:long|far(?: apart)?|wide|tall|high)|what) (?:is|are) [rest]"
        r"(?: between (?:them|the (?:<two2> )?[_]))?",
        (Case("u=w u!v rest!m", "a ÷ n × k"),), unit="v",
    ),
)  # fmt: skip
"""So many for so many, and as many for each in another amount."""

_AT_PRICE = r"(?: at (?:the same|that|this) (?:price|rate)(?: per [_])?)?"
_LONG = r"(?:apart|long|wide|tall|high)"
PRICES = (
    form(
        "same price",
        r"(?:if )?<a> [u] of [x] costs? <$p>\.? how much (?:will|would|do|does) <b> [v]"
        rf"(?: of [y])? cost{_AT_PRICE}",
        lambda g: "p ÷ a × b" if g.get("y", g["x"]) == g["x"] else None,
        where="u=v", unit="dollar",
    ),
    form(
        "scale",
        r"(?:on|in) (?:a|an|the) [m](?: of [_])? <n> [u] (?:stands? for|represents?|shows?|equals?"
        rf"|is|are) <k> [v]\. how many [y] {_LONG} (?:is|are) (?:(?:the )?<two> )?[_] that "
        rf"(?:is|are|measures?) <a> [w](?: {_LONG})? (?:on|in) (?:the|this) [o]",
        "a ÷ n × k", where="u=w u!v y=v o=m", unit="v",
    ),
)  # fmt: skip
"""So much for so many, and a scale asked about in one sentence."""


def _of_them(given: Named) -> str | None:
    """A percent of those told of, where the question says of them what was told."""
    told, asked = given["did"], given["does"]
    if any(not same(given[name], given["x"]) for name in ("y", "z", "v") if name in given):
        return None
    if asked == told:
        return "n × r ÷ 100"
    plain = re.sub(r"^(?:do not|did not|don't|didn't) |^(are|were) not ", r"\1 ", asked).strip()
    return "n − n × r ÷ 100" if plain == told and plain != asked else None


PERCENTS = (
    Form(
        "percent of those told",
        r"(?:{who}(?:has|had|have)|there (?:are|were)) <n> [x]{where}\. <r%> of (?:them|the [y]) "
        r"(?P<did>[a-z' ]+)\. how many (?:of (?:them|the [z])|[v]) (?P<does>[a-z' ]+)",
        (Case("", _of_them),), unit="x", says="not",
    ),
    form(
        "rest of a percent",
        r"of (?:the |all )?<n> [x]{where} <r%> (?:of them )?(?:are|were|have|had) [y]\. how many"
        r"(?: of the [_]| of them| [_])? (?:are not|were not|aren't|weren't|do not have|did not "
        r"have) [v]",
        "n − n × r ÷ 100", where="y=v", unit="x",
    ),
    form(
        "rest of a percent",
        r"<r%> of the <n> [x]{where} (?:are|were|have|had) [y]\. how many"
        r"(?: of the [_]| of them| [_])? (?:are not|were not|aren't|weren't|do not have|did not "
        r"have) [v]",
        "n − n × r ÷ 100", where="y=v", unit="x",
    ),
    form(
        "rest of a percent",
        r"(?:of the <n> [x]{where} <r%>|<r2%> of the <n2> [x2]{where}) (?:are|were) [y]"
        r"(?:\.| and) the (?:rest|others) (?:are|were) [w]\. how many(?: [_])? (?:are|were) [v]",
        lambda g: "n − n × r ÷ 100" if "n" in g else "n2 − n2 × r2 ÷ 100",
        where="w=v y!v",
    ),
    form(
        "whole of a percent",
        r"<a> [x] or <r%> of (?:the|a|his|her|their) (?P<w>[a-z' ]+)\. how many [y]"
        r"(?: are| were)?(?: there)?(?: in all)?(?: are)? (?:in|on|at) (?:the|a|his|her|their) [v]",
        "a × 100 ÷ r", where="x=y w&v", unit="y",
    ),
    form(
        "fraction of a number",
        r"<f> of the <n> [x]{where} (?:are|were|is) (?P<y>[a-z' 0-9]+)\. how many [z] "
        r"(?:are|were) (?P<v>[a-z' 0-9]+)",
        lambda g: "f × n" if g["y"] == g["v"] and "/" in g["f"] else None, where="x=z",
    ),
)  # fmt: skip
"""Percents of groups: so many of them, what is left, or what the whole is."""

ROWS = (*RATES, *PRICES, *PERCENTS)
