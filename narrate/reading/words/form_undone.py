"""Rows of a number to which two things are done, one after the other (CCSSM 2010, 7.EE.B.4)."""

from __future__ import annotations

from narrate.reading.words.forms import Named, form

_DONE = (
    r"(?:(?P<twice>doubled|tripled)|multiplied by <k>|(?P<over>divided by) <k2>)",
    r"(?:(?P<twice2>double|triple) it|multiply it by <k>|(?P<over2>divide it by) <k2>)",
)


def _from_the_end(given: Named) -> str | None:
    """The number to which two things are done, in the order told, undone from the last."""
    words = {name.rstrip("2"): word for name, word in given.items()}
    times = {"d": "2", "t": "3"}.get(words.get("twice", "-")[0], words.get("k", ""))
    back = "×" if "over" in words else "÷"
    sign = "−" if words["sign"].startswith(("add", "increase")) else "+"
    if given["order"] == "times first":
        return f"(r {sign} n) {back} {times}"
    return f"r {back} {times} {sign} n"


def _times_first(given: Named) -> str | None:
    return _from_the_end({**given, "order": "times first"})


def _more_first(given: Named) -> str | None:
    return _from_the_end({**given, "order": "more first"})


_THEN = r"(?:,? (?:and )?(?:then )?|, then )"
_RESULT = (
    r"(?:the (?:result|answer|total)(?: (?:is|was|will be))?|(?:i|he|she) (?:gets?|got|ends? "
    r"(?:up )?with)|it (?:is|equals)) <r>"
)
_SIGNS = r"<n> is (?P<sign>added|subtracted)(?: (?:to|from) the (?:product|result|quotient))?"
_SIGN_IT = r"(?P<sign>add|subtract) <n>(?: (?:to|from) (?:it|the (?:product|result)))?"
_ASK = (
    r"\. (?:what is (?:the|this|that|my|her|his) (?:original )?number|find (?:the|my) "
    r"number|what number (?:did|does) {who}(?:start with|think of)|what is it)"
)
_SECRET = (
    r"(?:i am|i'm|{who}is) thinking of a (?:certain )?number\. (?:if|when) (?:i|you|he|she|we) "
)
_TOLD_AT_ONCE = (
    form(
        "unknown number",
        rf"(?:if|when) a (?:certain )?number is {_DONE[0]} and (?:then )?{_SIGNS} {_RESULT}{_ASK}",
        _times_first, says="if then added subtracted total when",
    ),
    form(
        "unknown number",
        rf"(?:if|when) <n> is (?P<sign>added|subtracted) (?:to|from) a (?:certain )?number and "
        rf"(?:then )?"
        rf"the (?:result|sum|difference|answer) is (?:then )?{_DONE[0]} {_RESULT}{_ASK}",
        _more_first, says="if then added subtracted total when sum difference",
    ),
    form(
        "unknown number",
        rf"{_SECRET}{_DONE[1]} and (?:then )?{_SIGN_IT} {_RESULT}{_ASK}",
        _times_first, says="if then add subtract total double triple when",
    ),
)  # fmt: skip
_WAS = r"(?:the (?:result|answer) (?:is|was)|(?:she|he|it) (?:got|ended with|is|was)) <r>"
_DID = r"(?:(?P<twice>doubled|tripled) it|multiplied it by <k>|(?P<over>divided it by) <k2>)"
_TOLD_STEP_BY_STEP = (
    form(
        "unknown number",
        rf"{{who1}}(?:thought of|picked|chose) a (?:secret )?number\. (?:she|he) {_DID} and "
        rf"(?:then )?"
        rf"(?P<sign>added|subtracted) <n>(?: (?:to|from) (?:it|the (?:product|result)))?\. "
        rf"{_WAS}\. "
        r"what (?:is|was) (?:{who2}|the )?(?:original |starting )?number",
        _times_first,
        says="then added subtracted",
    ),
    form(
        "unknown number",
        rf"a (?:certain )?number is {_DONE[0]} and (?:then )?{_SIGNS}(?:\.| and) (?:the "
        rf"(?:result|answer)"
        rf" is|it is) <r>{_ASK}",
        _times_first,
        says="then added subtracted",
    ),
)
"""A number to which two things are done, one after the other, and what comes of it."""

ROWS = (*_TOLD_AT_ONCE, *_TOLD_STEP_BY_STEP)
