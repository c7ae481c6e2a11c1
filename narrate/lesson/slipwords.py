"""What a slip did, in a few words: beside the wrong line, or beside the choice that it makes."""

from __future__ import annotations

NOT_RIGHT = {"en": "not right"}
"""The word that marks a pupil's wrong line."""

_WENT_WRONG = {
    "en": {
        "adds across": "denominators added too",
        "subtracts across": "denominators subtracted too",
        "parts added across": "denominators added too",
        "denominators multiplied": "old numerators kept",
        "larger denominator kept": "old numerators kept",
        "smaller denominator kept": "old numerators kept",
        "numerators not rescaled": "old numerators kept",
        "one numerator not rescaled": "an old numerator kept",
        "denominator only": "old numerator kept",
        "numerator only": "old denominator kept",
        "rescaled by adding": "added, not multiplied",
        "changed by adding": "added, not multiplied",
        "changed by subtracting": "subtracted, not divided",
        "simplified by subtracting": "subtracted, not divided",
        "multiplier given": "only the factor",
        "whole added to numerator": "whole added to numerator",
        "whole times numerator": "whole times numerator",
        "smaller from larger": "smaller part from larger",
        "regrouped as ten": "a whole cut into 10",
        "whole not lowered": "a whole not lowered",
        "fraction carried down": "fraction not subtracted",
        "new whole forgotten": "the new whole forgotten",
        "wholes left out": "wholes left out",
        "answers a first question": "the known parts",
        "stopped early": "stopped too early",
        "first step only": "stopped too early",
        "amount left out": "an amount left out",
        "number left out": "a number left out",
        "one amount given": "one of the amounts",
        "number given": "from the question",
        "other operation": "the other operation",
        "another operation": "another operation",
        "left to right": "from left to right",
        "parentheses ignored": "parentheses ignored",
        "all numbers added": "all numbers added",
        "second operation first": "wrong order",
        "larger by smaller": "wrong order",
        "remainder left out": "those left over forgotten",
        "group not full": "the last is not full",
        "remainder given": "what is left over",
        "groups given": "the groups, not the rest",
        "remainder as decimal": "remainder as a decimal",
        "parts of whole things": "a part of a group",
        "denominator only divided": "only divided",
        "new ten dropped": "new ten forgotten",
        "regrouping dropped": "regrouping forgotten",
        "always regrouped": "regrouped with no need",
        "product without regrouping": "new tens forgotten",
        "columns side by side": "no regrouping",
        "smaller digit from larger": "smaller from larger",
        "places copied down": "smaller from larger",
        "ten not taken": "next place unchanged",
        "nought where too small": "0 where it's too small",
        "one zero only": "a zero missing",
        "zero missing": "a zero missing",
        "zero written": "one digit too many",
        "no place shift": "tens taken as ones",
        "tens and ones only": "parts left out",
        "one part multiplied": "one part only",
        "written backward": "digits backward",
        "digit by digit": "digit by digit",
        "lined up at the right": "places not lined up",
        "parts apart": "parts kept apart",
        "places as in adding": "places as in adding",
        "point ignored": "decimal point ignored",
    }
}


def went_wrong(slip: str | None, language: str) -> str:
    """What a slip did; "" where it has no words."""
    return _WENT_WRONG.get(language, {}).get(slip or "", "")


def not_right(slip: str, language: str) -> str:
    """What stands beside a pupil's wrong line, with what went wrong where that is known."""
    wrong, did = NOT_RIGHT[language], went_wrong(slip, language)
    return f"{wrong}: {did}" if did else wrong
