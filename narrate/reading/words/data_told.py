"""Questions for the mean, median, mode or range of numbers that stand after or before them.

CCSSM (2010) 6.SP.B.5c; the range: common practice, no source.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from fractions import Fraction

from narrate.reading.words.whole_questions import ASK, LIST, Row, numbers


def _mean(found: re.Match[str]) -> Fraction | None:
    told = numbers(found["list"])
    return sum(told, Fraction(0)) / len(told)


def _median(found: re.Match[str]) -> Fraction | None:
    told = sorted(numbers(found["list"]))
    middle = len(told) // 2
    return told[middle] if len(told) % 2 else (told[middle - 1] + told[middle]) / 2


def _mode(found: re.Match[str]) -> Fraction | None:
    counts = Counter(numbers(found["list"])).most_common(2)
    alone = len(counts) == 1 or counts[0][1] > counts[1][1]
    return counts[0][0] if alone and counts[0][1] > 1 else None


def _range(found: re.Match[str]) -> Fraction | None:
    told = numbers(found["list"])
    return max(told) - min(told)


_LIST = LIST.replace("(", "(?P<list>", 1)
_DATA = (
    r"(?: of| in| for)?(?: this| the| these)?(?: following)?(?: set of| list of)?"
    r"(?: data| numbers| values| scores| set| list)?(?: set| values)?[:?.]? "
)
_TOLD_DATA = (
    r"(?!.*\b(?:after|without|if|next|more|less|than|each|every|another|except|lowest|highest|added"
    r"|removed|changed|twice|half|not|first|last|other|missing|later|then|will)\b)"
    rf"(?P<before>[a-z' ]+?)(?: (?:is|are|was|were|has|scored|got|had|have|holds?|contains?|"
    rf"weighs?|measures?|read|picked|sold|counted|ran|made|collected|grew):?|:) {_LIST}(?: "
    rf"[a-z]+){{0,2}}[.] "
)
_OF_THEM = (
    r"(?:what (?:is|was)|find) (?:the|her|his|their|its) (?:{})(?: (?!of)[a-z]+){{0,2}}"
    r"(?: (?:of|for|in)(?: (?:the|her|his|their|its|this|these|all))?(?: [a-z']+){{1,3}})?"
)
_COUNTS = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip


def _counted(rule: Callable[[re.Match[str]], Fraction | None]) -> Callable[..., Fraction | None]:
    """A rule for as many numbers as the words before them say: the ages of five gardeners."""

    def work(found: re.Match[str]) -> Fraction | None:
        said = [_COUNTS[w] for w in found["before"].lower().split() if w in _COUNTS]
        return rule(found) if all(n == len(numbers(found["list"])) for n in said) else None

    return work


_RULES = (
    ("mean", "mean|average", _mean), ("median", "median", _median), ("mode", "mode", _mode),
    ("range", "range", _range),
)  # fmt: skip
ROWS = tuple(
    row
    for name, words, rule in _RULES
    for row in (
        Row(rf"{ASK} (?:{words}){_DATA}{_LIST}", rule, name),
        Row(rf"{_TOLD_DATA}{_OF_THEM.format(words)}", _counted(rule), name),
    )
)
