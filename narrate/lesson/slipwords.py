"""What a slip did, in a few words: beside the wrong line, or beside the choice that it makes.

The words are those of `slips` in the language's `labels.yaml`.
"""

from __future__ import annotations

from functools import lru_cache

from narrate.lesson.templates import labels

NOT_RIGHT = "not right"
"""The name of the word that marks a pupil's wrong line."""


@lru_cache(maxsize=8)
def _words(language: str) -> dict[str, str]:
    return labels("slips", language)


def went_wrong(slip: str | None, language: str) -> str:
    """What a slip did; "" where it has no words."""
    return _words(language).get(slip or "", "")


def not_right(slip: str, language: str) -> str:
    """What stands beside a pupil's wrong line, with what went wrong where that is known."""
    wrong, did = _words(language)[NOT_RIGHT], went_wrong(slip, language)
    return f"{wrong}: {did}" if did else wrong
