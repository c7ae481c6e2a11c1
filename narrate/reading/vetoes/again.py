"""Whether work takes a number once more than a text tells it, as for one more who has the same."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from narrate.exact.tree import Expr
from narrate.reading.vetoes.summed import numbers
from narrate.reading.vetoes.told_numbers import counted


def takes_again(text: str, tree: Expr | None) -> bool:
    """Whether a number of the text stands once more in the work, or it is doubled."""
    told, used = counted(text), Counter(numbers(tree))
    doubled = used[Fraction(2)] > told[Fraction(2)]
    return doubled or any(n in told and times > told[n] for n, times in used.items())
