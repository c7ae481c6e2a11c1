"""What a question asks about: such books, only the tickets, each pupil, the hours themselves."""

from __future__ import annotations

import re

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import factors, numbers, operations, sums, worth
from narrate.reading.vetoes.told_numbers import COUNT, NUMBER, found_all, read_number
from narrate.reading.words.lexicon import one

_SIZED = re.compile(rf"\b({NUMBER})-([a-z]+) ((?:[a-z]+ )?[a-z]+)")


def works_with_a_size(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the size of one thing is worked with where so many such things are asked about.

    A 300-page book costs $14, so 3 such books cost 3 × 14, whatever a page costs.
    """
    used = {*numbers(tree)}
    for sized in found_all(_SIZED, story):
        of_packs = sized[2] in ("pack", "box", "set")
        if read_number(sized[1]) not in used:
            continue
        if re.search(rf"\b{sized[2]}s?\b", question) and not of_packs:
            continue
        named = [sized[2]] if of_packs else sized[3].split()
        things = "|".join(re.escape(re.sub("e?s$", "", word)) for word in named)
        if re.search(rf"\b{COUNT} (?:[a-z]+ ){{0,2}}(?:{things})(?:e?s)?\b", question):
            return True
    return False


_PRICED = re.compile(
    rf"([a-z]+) (?:costs?|sells? for|is sold for) \$({NUMBER})(?! (?:more|less)\b)"
)
_ALL_PAID = re.compile(r"\b(?:in all|altogether|total|spend|spent|together|both|and|change|left)\b")


def pays_for_what_is_not_asked(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the price of a second thing is added where the first alone is asked about."""
    if "×" not in operations(tree) or _ALL_PAID.search(question):
        return False
    priced = [(f[1], read_number(f[2])) for f in found_all(_PRICED, story)]
    asked = {one(word) for word in re.findall(r"[a-z]+", question)}
    named = [price for thing, price in priced if one(thing) in asked]
    others = {price for _, price in priced} - {*named}
    joined = [{worth(term) for _, term in terms} for terms in sums(tree)]
    return bool(named) and any(each & others for each in joined)


_IDLE = re.compile(
    r"\b(?:rest(?:s|ed|ing)?|(?:stands?|stood) still|wait(?:s|ed|ing)?|stop(?:s|ped)?"
    rf"|paus(?:es|ed?)|sleeps?|slept)\b(?: for)? ({NUMBER})"
)


def works_while_idle(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a rate is taken to run while somebody rests or waits."""
    idle = {read_number(found[1]) for found in found_all(_IDLE, story)}
    if "×" not in operations(tree):
        return False
    return any(sign > 0 and worth(t) in idle for terms in sums(tree) for sign, t in terms)


_SPAN_ASKED = re.compile(r"\bhow many (?:seconds|minutes|hours|days|weeks)\b")
_MONEY = re.compile(rf"\$({NUMBER})")


def pays_where_time_is_asked(story: str, question: str, tree: Expr | None) -> bool:
    """Whether money is worked with where hours are asked that are told by themselves."""
    if _SPAN_ASKED.search(question) is None or "÷" in operations(tree):
        return False
    money = {read_number(found[1]) for found in found_all(_MONEY, story)}
    return not money.isdisjoint(factors(tree))


_ONE_OF = re.compile(r"\b(?:each|every|the (?:first|last|second|third)|in one|in an?) ([a-z]+)\b")


def gives_all_for_each(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what all of them have is given where each of them is asked about."""
    asking = question[max(question.find("how "), 0) :].split(" if ")[0]
    asked = {one(found[1]) for found in _ONE_OF.finditer(asking)}
    if not asked or set(operations(tree)) - {"×", "+"}:
        return False
    groups = {
        read_number(found[1]) for found in found_all(_GROUPS, story) if one(found[2]) in asked
    }
    return not groups.isdisjoint(factors(tree))


_GROUPS = re.compile(rf"\b({NUMBER}) ([a-z]+s)\b")
_JOINED = re.compile(r"\b(?:side by side|put together|joined|pushed together|next to each other)\b")


def goes_round_each(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the way round figures put together is worked out as if they stood alone."""
    del tree
    round_it = re.search(r"\b(?:perimeter|around)\b", question)
    return round_it is not None and _JOINED.search(story) is not None


ROWS: Rows = (
    Row(works_with_a_size, "a size is told of one thing", "-"),
    Row(pays_for_what_is_not_asked, "another price is told than what is asked for", "$"),
    Row(works_while_idle, "nothing is done meanwhile", "rest|still|wait|stop|paus|sle"),
    Row(pays_where_time_is_asked, "the time itself is asked", "$"),
    Row(gives_all_for_each, "only some of them are asked about", "each|every|the |in "),
    Row(goes_round_each, "sides that are put together lie inside", "perimeter|around"),
)
