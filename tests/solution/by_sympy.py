"""Lines of work read a second time, by nothing of ours: text to sympy's exact arithmetic.

A line is rewritten as Python over `sympy.Rational`: a number and a fraction with a slash bind
tightest, as on paper; the rest is Python's own precedence.
"""

from __future__ import annotations

import re
from typing import Any

import sympy

_SIGNS = str.maketrans({"−": "-", "×": "*", "÷": "/"})
_TOKEN = re.compile(r"(\d+\.\d+)|(\d+) (\d+)/(\d+)|(\d+)/(\d+)|(\d+)")


def exact(text: str, blank: object = None) -> Any:
    """The value of an expression as a sympy number; `□` counts as `blank`."""
    plain = re.sub(r"(?<=\d),(?=\d{3})", "", text).translate(_SIGNS)
    if blank is not None:
        plain = plain.replace("□", str(blank))
    code = _TOKEN.sub(_as_rational, plain)
    assert re.fullmatch(r"[R()'.\d,+\-*/ ]+", code), text
    return eval(code, {"__builtins__": {}, "R": sympy.Rational})


def _as_rational(found: re.Match[str]) -> str:
    decimal, whole, top, bottom, over, under, plain = found.groups()
    if decimal:
        return f"R('{decimal}')"
    if plain:
        return f"R({plain})"
    if over:
        return f"R({over},{under})"
    return f"(R({whole})+R({top},{bottom}))"


def sides(line: str) -> list[str]:
    """The sides of an equation; an expression alone is one side."""
    return line.split(" = ")


def listed(line: str) -> list[tuple[int, list[int]]]:
    """Lists of multiples as steps print them: `5: 5, 10; 2: 2, 4, 6, 8, 10`."""
    lists = []
    for text in line.split("; "):
        number, values = text.split(": ")
        lists.append((int(number), [int(entry) for entry in values.split(", ")]))
    return lists


def least_common(numbers: list[int]) -> int:
    return int(sympy.ilcm(*numbers)) if len(numbers) > 1 else numbers[0]
