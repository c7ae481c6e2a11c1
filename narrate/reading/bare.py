"""Bare questions: an expression or equation with nothing around it but instructions.

A stem is bare only where every word is one of a closed set of instruction words, or a name. So
"Mia got 4/9 for 3/4 + 1/5; how far off is she?" is not bare, and is declined rather than guessed.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from narrate.exact import prose
from narrate.exact.tree import (
    Decimal,
    Expr,
    Frac,
    Group,
    Mixed,
    Neg,
    Over,
    Piece,
    Relation,
    Whole,
    Writing,
    value,
    walk,
    write_sum,
)

_WORDS = """
    a add added adding all an and answer any apply are as at be below between blank box boxes by
    calculate can check choose complete compute could correct correctly denominator difference done
    each
    equal equals equation equivalent evaluate every expression expressions fill final find first for
    form fraction fractions from given has have help her his how if improper in is it its itself
    line lines lowest make makes mark marks missing mixed model must name need needed needs next
    number numbers numeral of on or problem question result right same says select she he they
    show shows simplest simplified simplify solution solve solved solving start starts starting
    statement step steps subtract subtracted subtracting sum task term terms that the their them
    then there these they this to true use used using value values wants way what when which will
    with without work works worked working would write written you your make sense begin begins
    below following equally complete completes sentence unknown find finds take away plus minus
    goes go get stands stand place put symbol choice choices correctly strip diagram shown drawing
    claim claims did do does error gets got mistake says think thinks thought went wrong wrote
    adds exactly give gives numerator out please possible reduce reduced single total us we
    belong belongs finding sums differences
"""
_INSTRUCTIONS = frozenset(_WORDS.split())

_ONE = r"\b(?:which|each|this|that) one\b|\bone (?=of|fraction|number|box|line)"
"""Where "one" is no amount. Elsewhere it is, as in "subtract 3/4 from one"."""

_CHANGING = """
    zero one two three four five six seven eight nine ten eleven twelve half halves halve third
    thirds fourth fourths quarter quarters double doubled triple twice thrice round estimate
    approximate multiply divide compare order less more invert square reciprocal
"""
_NEVER_NAMES = frozenset(_CHANGING.split())
"""Words that would change what is asked, and that a capital letter makes no name."""

_VERBS = """
    says claims thinks thought wrote got did does has makes starts works wants needs adds finds
    uses solves gives gets is will can found used solved worked started added made
"""
_DOING = frozenset(_VERBS.split())
"""What follows a name that begins a sentence: a first word alone may be an unknown command."""

_MORE_TO_DO = (
    r"\b(?:plus|minus|take away)\b|\badd(?:ed|ing)?\s+(?:it\s+)?to\b"
    r"|\bsubtract(?:ed|ing)?\s+(?:it\s+)?from\b|\b(?:then|and)\s+(?:add|subtract)\b"
)
"""Words beside a whole expression that ask for more than its value."""

_OPERATION = r"\b(?:plus|minus|take away|add(?:ed|ing|s)?|subtract(?:ed|ing)?|sum|difference)\b"
_LOOSE_SIGN = r"[+×÷*−√^²³⁰¹⁴⁵⁶⁷⁸⁹|!]|(?<!\S)[-/](?!\S)"

_NUMBERS = (Whole, Frac, Mixed, Decimal)

_SIGNS = {"plus": 1, "minus": -1}

_PHRASES: tuple[tuple[str, str], ...] = (
    (r"\b(?:sum|total) of\s*$", "+"),
    (r"\badd(?:ing)?\s*$", "+"),
    (r"\bdifference (?:between|of)\s*$", "−"),
)


@lru_cache(maxsize=1024)  # a question is read, and held against its model
def find_bare(text: str, claim: Expr | None = None) -> Writing | None:
    """The expression or equation of a bare question, None if it is not bare for certain.

    `claim` is the answer of a pupil that the question may name as well.
    """
    runs = tuple(run for run in prose.read(text) if claim is None or run.piece != claim)
    words = " ".join(run.piece for run in runs if isinstance(run.piece, str))
    trees = [run.piece for run in runs if not isinstance(run.piece, str)]
    if not _only_instructions(words) or _asks_for_a_part(words, trees):
        return None
    if re.search(_LOOSE_SIGN, words) or "%" in words:
        return None
    work = [tree for tree in trees if not _is_number(tree)]
    if len(trees) == 1:
        more = _MORE_TO_DO if work else _OPERATION
        return None if re.search(more, words, re.IGNORECASE) else trees[0]
    return None if work else _in_words(text, runs)


def _is_number(tree: Writing) -> bool:
    match tree:
        case Neg(inner) | Group(inner):
            return _is_number(inner)
        case _:
            return isinstance(tree, _NUMBERS)


def _only_instructions(words: str) -> bool:
    """Whether every word is an instruction word or a name."""
    for sentence in re.split(r"(?<=[.?!:])\s+", re.sub(_ONE, " ", words, flags=re.IGNORECASE)):
        found = re.findall(r"[^\W\d_]+(?:['’][a-z]+)?:?", sentence)
        for place, word in enumerate(found):
            plain = re.sub(r"['’]s$", "", word.rstrip(":"))
            if plain.lower() not in _INSTRUCTIONS and not _is_name(plain, place, found):
                return False
    return True


def _is_name(plain: str, place: int, sentence: list[str]) -> bool:
    """Whether a word is a name: a capital inside a sentence, or first and plainly a person."""
    if not plain[:1].isupper() or plain.lower() in _NEVER_NAMES:
        return False
    return place > 0 or _begins_with_person(plain, sentence)


def _begins_with_person(plain: str, sentence: list[str]) -> bool:
    """Whether a sentence begins "Ana says", "Ana's", "Ana and Wen" or "Ana:"."""
    word, *after = sentence
    if not after:
        return word == f"{plain}:"
    joined = after[0] == "and" and after[1:] and after[1][0].isupper()
    return after[0] in _DOING or bool(joined) or re.fullmatch(r".+['’]s", word) is not None


def _asks_for_a_part(words: str, trees: list[Writing]) -> bool:
    """Whether a numerator or denominator is spoken of, and none of a fraction is blank."""
    spoken_of = re.search(r"\b(?:numerator|denominator)\b", words, re.IGNORECASE)
    blank = any(isinstance(node, Over) for tree in trees for node in walk(tree))
    return bool(spoken_of) and not blank


def _in_words(text: str, runs: tuple[prose.Run, ...]) -> Writing | None:
    """A sum said in words: "the sum of 2/3 and 1/4", "the difference between 5/6 and 1/4"."""
    numbers = [run for run in runs if not isinstance(run.piece, str)]
    if len(numbers) < 2:
        return None
    trees = [_expression(run.piece) for run in numbers]
    between = [text[a.end : b.start].strip(" ,") for a, b in pairwise(numbers)]
    before, after = text[: numbers[0].start], text[numbers[-1].end :]
    if re.search(_OPERATION, after, re.IGNORECASE):
        return None
    if all(words in _SIGNS for words in between):
        signs = [1, *(_SIGNS[words] for words in between)]
        return write_sum(list(zip(signs, trees, strict=True)))
    if between == ["to"] and re.search(r"\badd\s*$", before, re.IGNORECASE):
        return write_sum([(1, trees[1]), (1, trees[0])])
    if between == ["from"] and re.search(r"\bsubtract\s*$", before, re.IGNORECASE):
        return write_sum([(1, trees[1]), (-1, trees[0])])
    if any(words not in ("and", "") for words in between):
        return None
    for pattern, sign in _PHRASES:
        if re.search(pattern, before, re.IGNORECASE):
            return _signed_sum(trees, sign)
    return None


def _signed_sum(trees: list[Expr], sign: str) -> Writing | None:
    if sign == "+":
        return write_sum([(1, tree) for tree in trees])
    if len(trees) != 2:
        return None
    sizes: list[Fraction] = [value(tree) for tree in trees]
    larger, smaller = trees if sizes[0] >= sizes[1] else reversed(trees)
    return write_sum([(1, larger), (-1, smaller)])


def _expression(piece: Piece) -> Expr:
    assert not isinstance(piece, str | Relation)
    return piece
