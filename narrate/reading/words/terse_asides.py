"""Words that tell no amount and are left out: events, feelings, what was before and after."""

from __future__ import annotations

import re

from narrate.reading.words.lexicon import DATES
from narrate.reading.words.openings import BINDS
from narrate.reading.words.terse_row import Row, row


def _two_days(found: re.Match[str]) -> bool:
    """Whether just two days or months are told of."""
    told = {w.lower() for w in re.findall(r"[A-Z][a-z]+", found.string[: found.start()])}
    return len(told & DATES) == len("ab")


def _no_some(found: re.Match[str]) -> bool:
    """Whether the words that are left out tell of no amount."""
    return not re.search(r"\b(?:some|more|others?|another|half|all|rest|none|both)\b", found[0])


def _happened_last(found: re.Match[str]) -> bool:
    """Whether what a question asks the end of is told last, and nowhere else."""
    told = found.string[: found.start("asked")].lower()
    words = set(re.findall(r"[a-z]+", found["what"].lower()))
    stems = {w[:4] for w in words - _SMALL if len(w) > len("the")}
    numbers = [n.span() for n in re.finditer(r"\d[\d,./ ]*", told)]
    if words & _NARROWS or len(numbers) < len("ab"):
        return False
    (_, before), (_, last) = numbers[-2:]
    said = [w.start() for w in re.finditer(r"[a-z]{4,}", told) if w[0][:4] in stems]
    apart = [at > last or (at > before and ". " in told[before:at]) for at in said]
    return bool(apart) and all(apart)


_NARROWS = BINDS | {"excluding", "for", "on", "in", "both", "day", "days", "week", "year", "hour"}
_SMALL = frozenset(
    ["after", "the", "that", "this", "was", "were", "had", "been", "made", "she", "he", "they"]
)


def _one_event(found: re.Match[str]) -> bool:
    """Whether all that is told was at one event."""
    told = found.string.lower()
    return told.count(found["e"]) == len("ab") and not re.search(
        r"\b(?:before|after|next|then|second|other|later|first)\b", told
    )


ASIDES: tuple[Row, ...] = (
    # one event, told of at the start and in the question
    row(
        "how many",
        "^(?:During|At) the (?:[a-z]+ ){0,2}?(?P<e>{EVENT}), (?P<m>[^?]*[Hh]ow [^?]*?) "
        r"(?:during|at) the (?:[a-z]+ ){0,2}?(?P=e)(?=\?)",
        "<m>",
        _one_event,
    ),
    # what somebody feels, why and when it was
    row(
        " to see | to find out | to learn | to decide ",
        "(?<! trying),? to (?:see|find out|learn|decide) (?:which|who|whether|if) [A-Za-z' "
        "]+(?=[.,])",
    ),
    row(
        "hungry|tired|thirsty|happy|excited|proud|sleepy|cold|hot|busy|glad|sad",
        ",? (?:and|but|because|since) {P} {IS} (?:very |so |all |really )?{FEELS}(?=[.,?])",
    ),
    row(
        " when | as ",
        r" (?:when|as) [A-Za-z.' ]+? (?:began|started|opened|arrived)\b[A-Za-z' ]*(?=\.)",
        sure=_no_some,
    ),
    row(
        ", ",
        "^(?:In|During|At|On) (?:an? |the |their )?(?:[a-z-]+ ){0,3}?{EVENT}(?: "
        "(?:at|in|for) (?:the )?[a-z ]+)?, (?=[A-Z]|a |the )",
    ),
    row(
        "route|way",
        "^On (?:his|her|their) (?:route|way)(?: to [a-z]+)?,? (?=[A-Z])",
    ),
    row(
        "the month of",
        "the month of (?=[A-Z])",
    ),
    row(
        "exactly ",
        r"\bexactly (?={N} )",
    ),
    # those are all
    row(
        "the only|all the|all of the",
        "[Ii]f (?:those|these|they) (?:were|are) (?:the only|all(?: of)? the) [a-z ]+, "
        r"(?P<q>how many [^?]*?)(?P<e>\?)",
        "<q> in all<e>",
    ),
    row(
        "count|record|track",
        r"(?:(?<=\. )|^)(?P<w>(?:(?:During|At|In|On) [^,.]*, )?)[A-Z][\w.' ]*? "
        "(?:counted|(?:kept|keeps) (?:a )?(?:count|record|track) of)(?: all)? the [a-z ]+? "
        r"that were (?P<v>[a-z]+)\. (?:She|He|They) (?:counted|recorded) (?P<n>[^.]*)\.",
        "<w><n> were <v>.",
    ),
    row(
        " use",
        "[Ii]f {P} uses? (?:the whole|all(?: of)? (?:the|her|his|their)|the entire) [a-z]+, ",
        "",
    ),
    # days and places together
    row(
        "both |the two ",
        " (?:on|in|over|for|during) (?:both|the two) (?:days|months|weeks)(?: together| "
        r"combined)?(?=\?)",
        " in all",
        _two_days,
    ),
    # before and after
    row(
        "before ",
        "^Before {P} (?:went|got|left|came|started|began|walked|drove) [a-z' ]+, (?=[A-Z])",
    ),
    row(
        "and when ",
        r"(?P<a>and) when {P} (?:came|got|went|left|finished|returned)\b[a-z' ]*?,? "
        "(?P<s>he|she|they) had",
        "<a> then <s> had",
    ),
    row(
        "after ",
        r"(?P<asked>[Hh]ow [^?]*?)(?P<what> after [a-z' ]+)(?=\?)",
        "<asked>",
        _happened_last,
    ),
)
