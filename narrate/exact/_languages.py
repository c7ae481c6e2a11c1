"""The languages in which mathematics can be spoken."""

from __future__ import annotations

from narrate.errors import ExactError
from narrate.exact._english import ENGLISH, QUARTERS
from narrate.exact._language import Language

_LANGUAGES = {language.code: language for language in (ENGLISH, QUARTERS)}


def words_of(code: str) -> Language:
    """The language of a code such as `en`. Raises ExactError where there is none."""
    if code not in _LANGUAGES:
        known = ", ".join(_LANGUAGES)
        raise ExactError(f"mathematics can't be spoken in '{code}'; languages: {known}")
    return _LANGUAGES[code]
