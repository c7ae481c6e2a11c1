"""Rows of stories asked for as an expression: so much, and so much more or less for each of some.

CCSSM (2010) 6.EE.A.2, 6.EE.B.6, 6.EE.C.9, 7.EE.B.4. They are read only where an expression is asked
for; an amount that is a letter stands in them as a number (`<many>`).
"""

from __future__ import annotations

from narrate.reading.words.forms import Form, Named, form, one_of, same

_UNKNOWN = r"(?:[b-hj-z] )?"
_WHICH = (
    r"(?:which|what)(?: of (?:these|the following))? (?:expression|equation|number sentence)s?"
    r"(?: (?:below|can|could|best|correctly|be|used|to|will|would|help|{who}))*? (?:shows?"
    r"|represents?"
    r"|gives?|find|determine|models?|describes?|tells|calculate|is|express(?:es)?)"
)
_LET = (
    r"(?:(?:let|if) <many> (?:represents?|be|equals?|is|stands? for) the (?:number|amount) of"
    r" [times]"
    r"(?: [_])?\.? )?"
)
_FOR_SO_MANY = r"(?: (?:for|after|in|with|of|when|if)(?: {who}[_])? <many> [times](?: [_])?)?"
_COST = (
    rf"{_UNKNOWN}(?:how much (?:it|{{who}})(?:will |would )?(?:costs?|pays?|charges?|earns?|makes?)"
    r"|(?:the |his |her |their )?(?:total )?(?:cost|price|charge|amount|earnings|fee|pay)"
    r"(?: (?:in dollars|{who}(?:charges?|pays?|earns?|will pay|will earn)|of [_]))*)(?: in"
    r" dollars)?"
)
_THERE = (
    rf"{_UNKNOWN}(?:how (?:much|many)(?: [_])? (?:{{who}})?(?:has|have|had|will have|is|are|were)"
    r"(?: left)?|the (?:total )?(?:amount|number) of [_]"
    r"(?: (?:that )?(?:{who}(?:has|have|had|will have)|is|are|were|in [_]))?(?: left)?)"
)
_EACH = r"(?:for each|for every|per|each|every|an|a)"
_FEE = one_of(
    r"{who}(?:charges?|costs?|pays?|earns?|is paid|is) (?:a |an )?(?:(?:[_] )?fee of |base pay"
    r" of )?"
    r"<$p>(?: [_])? (?:plus|and)(?: then)?(?: an additional| another| an extra)? "
    rf"<$q> {_EACH} (?:additional )?[each](?: [_])?",
    r"[_] (?:is priced at|costs|is|are|rents for|sells for|is rented for) <$p> plus"
    rf" <$q> {_EACH} [each](?: [_])?",
    rf"{{who}}(?:charges?|costs?) <$q> {_EACH} [each] plus (?:a |an )?(?:[_] )?(?:fee|charge) of"
    r" <$p>",
)
_HAD = (
    r"{who}(?:has|had|have|starts?|started|begins?|began|saved|holds|held|contains)(?: out)?"
    r"(?: with)? \$?<p>(?: [x])?"
)
_THEN = (
    r"(?:if )?{who}(?:(?P<more>saves?|saved|earns?|earned|adds?|added|gets?|collects?|deposits?)"
    r"|(?P<less>spends?|spent|uses?|used|loses?|lost|pays?|eats?|withdraws?|leaks?|drains?))"
    rf" \$?<q>(?: [gets])?(?: [_])? {_EACH} [each]\.?"
)


def _had(given: Named) -> str | None:
    if "x" in given and "gets" in given and not same(given["x"], given["gets"]):
        return None
    return "p + q × many" if "more" in given else "p − q × many"


def _aged(given: Named) -> str | None:
    """How old someone is, told by how much older or younger than one whose age is a letter."""
    if not same(given["asked"].removesuffix("'s"), given["other"]):
        return None
    return f"many {'+' if given['way'] == 'older' else '−'} n"


ROWS: tuple[Form, ...] = (
    form(
        "so much and so much for each",
        rf"{_FEE}\. {_LET}{_WHICH} {_COST}{_FOR_SO_MANY}",
        "p + q × many", where="each=times", unit="dollar", says="additional extra another plus"
        " if after added",
    ),
    form(
        "so much and so much for each",
        rf"(?:{{who}}(?:went|is|are|was|were|goes) [_]\. )?{_HAD}\. {_THEN} ?{_LET}{_WHICH}"
        rf" {_THERE}{_FOR_SO_MANY}",
        _had, where="each=times", says="left after if",
    ),
    form(
        "age",
        r"[x] is <many> years old\. (?P<other>[a-z' ]+) is <n> years (?P<way>older|younger) than"
        r" [y]"
        rf"(?: is)?\. {_WHICH} {_UNKNOWN}(?:the age of (?P<asked>[a-z' ]+?)|(?P<asked>[a-z' ]+?)"
        r" age)(?: in years)?",
        _aged, where="x=y", unit="year", says="older younger",
    ),
)  # fmt: skip
"""So much, and so much more or less for each of some that are told by a letter."""
