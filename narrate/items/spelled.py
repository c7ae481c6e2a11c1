"""Numbers and work as choices spell them otherwise: in words, as 7 tens, 3 over 4, 2n, 10^4.

What cannot be read for certain is no number here.
"""

from __future__ import annotations

import re

from narrate.errors import ExactError
from narrate.exact.parser import parse
from narrate.exact.tree import Blank, Decimal, Expr, Group, Neg, Op, Relation, Whole, Writing

_SMALL = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_ONES = {word: n for n, word in enumerate(_SMALL)}
_ONES |= {word: 10 * n for n, word in enumerate(_TENS, start=2)}
_GROUPS = {"thousand": 1_000, "million": 1_000_000, "billion": 1_000_000_000}
_BEHIND = {"tenth": 1, "hundredth": 2, "thousandth": 3}
PLACES = {
    "one": 1, "ten": 10, "hundred": 100, "thousand": 1_000, "ten thousand": 10_000,
    "hundred thousand": 100_000, "million": 1_000_000,
}  # fmt: skip
"""What one of each place is worth."""
_OF_PLACE = re.compile(
    r"(?P<count>\d+) (?P<place>(?:ten|hundred) thousand|one|ten|hundred|thousand|million)s"
    r"|(?P<few>\d) (?P<part>tenth|hundredth|thousandth)s?"
)
_POWER = re.compile(r"(?P<base>\d+) ?(?:\^ ?(?P<to>[−-]?\d{1,2})|(?P<raised>⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]+))")
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_MOST_PLACES = 9
_LARGEST_POWER = 12


def spelled(text: str) -> Writing | None:
    """What a choice says that is written in another way than with plain signs; None if nothing."""
    plain = text.strip().rstrip(".")
    words = in_words(plain)
    if words is not None:
        return words
    return of_place(plain) or _statement(plain) or _with_signs(plain)


_SAYS = (
    (r"is (?:less|smaller|fewer) than", "{} < {}"),
    (r"is (?:greater|more|larger) than", "{} > {}"),
    (r"(?:is (?:equal|equivalent) to|equals|is the same as)", "{} = {}"),
    (r"is (?P<n>[\d,./]+) times (?:as (?:great|large|much|many|big) as)", "{} = {n} × {}"),
    (r"is (?P<n>[\d,./]+) more than", "{} = {} + {n}"),
    (r"is (?P<n>[\d,./]+) less than", "{} = {} − {n}"),
)
"""How two numbers are said to stand to each other."""


def _statement(text: str) -> Writing | None:
    """A sentence about two numbers as the relation that it states: 0.7 is less than 7/100."""
    for words, signs in _SAYS:
        found = re.fullmatch(rf"(?P<a>[^a-z]+) {words} (?P<b>[^a-z]+)", text)
        if found is None:
            continue
        named = {"n": found.groupdict().get("n", "")}
        try:
            return parse(signs.format(found["a"], found["b"], **named))
        except ExactError:
            return None
    return None


def of_place(text: str) -> Writing | None:
    """So many of a place, as a product: 7 tens are 7 × 10."""
    if (found := _OF_PLACE.fullmatch(text)) is None:
        return None
    if found["count"]:
        return Op("×", Whole(int(found["count"])), Whole(PLACES[found["place"]]))
    return Decimal("0", found["few"].rjust(_BEHIND[found["part"]], "0"))


def close_letters(tree: Writing) -> Writing:
    """The tree with a letter written right behind the number that it's multiplied by: 2n."""
    match tree:
        case Relation(sign, sides):
            return Relation(sign, tuple(_close(side) for side in sides))
        case _:
            return _close(tree)


def _close(tree: Expr) -> Expr:
    match tree:
        case Op("×", Whole() | Decimal() as left, Blank() as right):
            return Op("×", left, right, close=right.name.isalpha())
        case Op(sign, left, right):
            return Op(sign, _close(left), _close(right), close=tree.close)
        case Group(inner):
            return Group(_close(inner))
        case Neg(inner):
            return Neg(_close(inner))
        case _:
            return tree


def _with_signs(text: str) -> Writing | None:
    """Work with the signs that its close writing leaves out: 2n, 4 • 3, 2² × 5, 17 over 2."""
    if re.search(r"(?<![a-z])\d+[a-z]{2}", text):
        return None  # 12cm
    plain = text.replace("•", "×")
    plain = re.sub(r"\b(\d+) over (\d+)\b", r"\1/\2", plain)
    plain = re.sub(r"(?<=[\d)])(?=[a-z](?![a-z]))", " × ", plain)
    plain = re.sub(r"(?<![a-z])([a-z])(?=\()", r"\1 × ", plain)
    plain = _POWER.sub(_power, plain)
    try:
        tree = parse(plain) if plain != text else None
    except ExactError:
        return None
    return close_letters(tree) if tree is not None and re.search(r"\d[a-z]", text) else tree


def _power(found: re.Match[str]) -> str:
    """A power as what it stands for: 10^4 is 10,000, 2³ is (2 × 2 × 2)."""
    base, to = (
        found["base"],
        int((found["to"] or found["raised"].translate(_RAISED)).replace("−", "-")),
    )
    if base == "10" and abs(to) <= _MOST_PLACES:
        return "1" + "0" * to if to >= 0 else "0." + "1".rjust(-to, "0")
    if not 1 <= to <= _LARGEST_POWER:
        return found[0]
    product = " × ".join([base] * to)
    alone = re.fullmatch(r"[\d ×^⁰¹²³⁴⁵⁶⁷⁸⁹]*", found.string) is not None
    return product if alone else f"({product})"


# -- numbers in words


def in_words(text: str) -> Whole | Decimal | None:
    """A number in words: twelve thousand, forty; six and five hundredths. None of anything else."""
    words = re.findall(r"[a-z]+", text.lower().replace("-", " "))
    if not words or re.search(r"[^A-Za-z ,-]", text):
        return None
    part = words[-1].removesuffix("s")
    if part in _BEHIND and len(words) > 1:
        return _with_parts(words[:-1], _BEHIND[part])
    found = _whole([word for word in words if word != "and"])
    return None if found is None else Whole(found)


def _with_parts(words: list[str], places: int) -> Decimal | None:
    """Six and five hundredths, or five hundredths alone."""
    before, after = ([], words) if "and" not in words else _parted(words)
    whole, part = _whole(before) if before else 0, _whole(after)
    if whole is None or part is None or part >= 10**places:
        return None
    return Decimal(str(whole), f"{part:0{places}}")


def _parted(words: list[str]) -> tuple[list[str], list[str]]:
    at = words.index("and")
    return words[:at], words[at + 1 :]


def _whole(words: list[str]) -> int | None:
    """A whole number of words that count down by thousands."""
    total, last = 0, 10**12
    group: list[str] = []
    for word in words:
        if word not in _GROUPS:
            group.append(word)
            continue
        size, count = _GROUPS[word], _below_thousand(group)
        if not count or size >= last:
            return None
        total, last, group = total + count * size, size, []
    rest = _below_thousand(group) if group else 0
    return None if rest is None or not words else total + rest


def _below_thousand(words: list[str]) -> int | None:
    """Six hundred nine; None where the words are none or stand in another order."""
    if "hundred" in words:
        at = words.index("hundred")
        count = _below_hundred(words[:at])
        rest = _below_hundred(words[at + 1 :]) if words[at + 1 :] else 0
        return None if not count or count > 9 or rest is None else 100 * count + rest
    return _below_hundred(words)


def _below_hundred(words: list[str]) -> int | None:
    values = [_ONES.get(word) for word in words]
    match values:
        case [int() as alone]:
            return alone
        case [int() as tens, int() as ones] if tens >= 20 and 1 <= ones <= 9:
            return tens + ones
        case _:
            return None
