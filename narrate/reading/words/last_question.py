"""A question that stands by itself behind a story which only tells its number.

"The garden used 15,268 liters. Which digit of that number is in the hundreds place?" is asked of
15,268; "The barrel holds 145,826 beans. What is the value of the 5 in 145,826?" needs no story.
"""

from __future__ import annotations

import re

_NUMBER = re.compile(r"(?<![\w/])\d[\d,]*(?:\.\d+)?(?: ?[×x] ?10 ?\^ ?-?\d+)?(?![\w/%]|\.\d)")
_POINTS = re.compile(
    r"(?P<of>digit of )?\b(?:that|this|the) (?:number|amount|distance|population)\b(?! of)|"
    r"(?<=is )it(?= rounded)",
    re.IGNORECASE,
)
_CHANGED = re.compile(
    r"\b(?:not|never|twice|double|half|opposite|except|more|less|fewer|added|subtracted"
    r"|if|instead|wrong|mistake)\b|n't",
    re.IGNORECASE,
)
_DIGIT = re.compile(
    r"(?:which|what) digit of (?:that|this|the) number is in the (.+?) ?\??$", re.IGNORECASE
)


def last_question(text: str) -> str:
    """The last sentence with the one number told before it; the text itself where not sure."""
    *before, asked = re.split(r"(?<=[.?!])\s+(?=[A-Z])", text.strip())
    story = " ".join(before)
    told = list(dict.fromkeys(n.strip(",") for n in _NUMBER.findall(story)))
    if not told or _CHANGED.search(story):
        return text
    own = [n.strip(",") for n in _NUMBER.findall(asked)]
    if set(told) <= set(own):
        return asked
    found = _POINTS.search(asked)
    if len(told) != 1 or own or found is None or re.search(r"\d", story.replace(told[0], "", 1)):
        return text
    if found["of"]:
        return _DIGIT.sub(rf"Which digit is in the \1 in {told[0]}?", asked)
    return f"{asked[: found.start()]}{told[0]}{asked[found.end() :]}"
