"""Stories of a known form, and what they are told by: a speed, a tip, a triangle, a scale.

Where a reading names no situation of its own, it still has words and work by which the form is
known. A row names both; the first that fits gives the words for what is asked and for why it is
worked out so. A row is only about the telling: what is worked out has been read before.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Expr, Frac, Group, Mixed, Money, Op, Whole, Writing, walk
from narrate.lesson.solved import SolvedPart
from narrate.reading.words.parts import words_of

Shape = Callable[[Writing], bool]

HUNDRED = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A form: the templates of what is asked and of why, patterns of its words, what work it is.

    `words` are looked for in all that the part says, `question` in its question; `of` are the
    situations of the reading that it stands for.
    """

    asked: str
    set_up: str
    shape: Shape
    words: str = ""
    question: str = ""
    of: tuple[str, ...] = ("steps",)


def form_of(solved: SolvedPart) -> Form | None:
    """The form of a part, None where it has none of those known."""
    reading = solved.reading
    words = words_of(solved.item, solved.part)
    asked = reading.unknown.question
    for row in _FORMS:
        fits = reading.situation in row.of and row.shape(reading.expression)
        if fits and _has(row.words, words) and _has(row.question, asked):
            return row
    if reading.situation == "bare" and not _stands_in(solved):
        return _IN_SIGNS
    return None


def details(solved: SolvedPart) -> dict[str, Any]:
    """What the sentences of forms may name beside the expression."""
    expression = solved.reading.expression
    base: Any = _base(expression)
    dollars = solved.reading.money and isinstance(base, Whole)
    return {"base": Money(base) if dollars else base, "hundred": Whole(HUNDRED)}


def takes_percent(tree: Writing) -> Expr | None:
    """The amount of which some hundredths are taken, None where it is other work."""
    match _bare(tree):
        case Op("÷", Op("×", base, Whole()), Whole(100)):
            return base
        case Op("×", Frac(_, 100), base) | Op("×", base, Frac(_, 100)):
            return base
    return None


def takeaway(solved: SolvedPart) -> str:
    """The sentence to take along of a form that has one, else ""."""
    form = form_of(solved)
    return _TAKEN.get(form.set_up, "") if form else ""


_TAKEN = {
    "volume": "volume",
    "number back": "number-back",
    "letter": "number-back",
    "power": "raised",
}


def is_with_percent(solved: SolvedPart) -> bool:
    """Whether a percent of an amount is found on the way: 32 + 32 × 15 ÷ 100."""
    form = form_of(solved)
    return form is not None and form.set_up in ("percent", "percent added", "percent off")


def is_power(tree: Writing) -> bool:
    """Whether a number is multiplied by itself and by nothing else."""
    ops = [node for node in walk(tree) if isinstance(node, Op)]
    numbers = {write(node) for node in walk(tree) if not isinstance(node, Op | Group)}
    return bool(ops) and all(op.sign == "×" for op in ops) and len(numbers) == 1


def _has(pattern: str, text: str) -> bool:
    return not pattern or re.search(pattern, text, re.IGNORECASE) is not None


def _stands_in(solved: SolvedPart) -> bool:
    """Whether the part writes its expression out, so that it can be copied."""
    wanted = write(solved.reading.expression)
    found = (run.piece for run in prose.read(words_of(solved.item, solved.part)))
    trees = (node for piece in found if not isinstance(piece, str) for node in walk(piece))
    return any(write(tree) == wanted for tree in trees)


def _bare(tree: Writing) -> Writing:
    return tree.inner if isinstance(tree, Group) else tree


def _base(tree: Expr) -> Writing:
    """The number that a percent is taken of, else the first of the expression."""
    found = (takes_percent(node) for node in walk(tree))
    first = next(node for node in walk(tree) if not isinstance(node, Op | Group))
    return next((base for base in found if base is not None), first)


def _is_one(signs: str) -> Shape:
    """Work of a single operation with one of these signs."""

    def fits(tree: Writing) -> bool:
        return (
            isinstance(tree, Op)
            and tree.sign in signs
            and not any(isinstance(side, Op | Group) for side in (tree.left, tree.right))
        )

    return fits


def _with_percent(sign: str) -> Shape:
    """An amount and a percent of it, joined by a sign."""

    def fits(tree: Writing) -> bool:
        return isinstance(tree, Op) and tree.sign == sign and takes_percent(tree.right) == tree.left

    return fits


def _only_times(tree: Writing) -> bool:
    ops = [node for node in walk(tree) if isinstance(node, Op)]
    return bool(ops) and all(op.sign == "×" for op in ops)


def _by_a_sum(tree: Writing) -> bool:
    """Whether something is divided by a sum in brackets."""
    return any(
        isinstance(node, Op)
        and node.sign == "÷"
        and isinstance(node.right, Group)
        and isinstance(node.right.inner, Op)
        and node.right.inner.sign == "+"
        for node in walk(tree)
    )


def _product_shared(tree: Writing) -> bool:
    """8 × 5 ÷ 2."""
    return isinstance(tree, Op) and tree.sign == "÷" and _is_one("×")(_bare(tree.left))


def _part_taken_off(tree: Writing) -> bool:
    """48 − 3/8 × 48."""
    match tree:
        case Op("−", whole, Op("×", Frac(), of)):
            return whole == of
    return False


def _with_one_more(tree: Writing) -> bool:
    """(3 + 1) × 12: somebody and 3 others."""
    inner = (node.inner for node in walk(tree) if isinstance(node, Group))
    return any(isinstance(i, Op) and i.sign == "+" and i.right == Whole(1) for i in inner)


def _sum_shared(tree: Writing) -> bool:
    """(42 + 18.50) ÷ 5."""
    match tree:
        case Op("÷", Group(Op("+", _, _)), Whole()):
            return True
    return False


def _taken_off_product(tree: Writing) -> bool:
    """3 × 14 − (10 + 17)."""
    if isinstance(tree, Op) and tree.sign == "−":
        return _taken_off_product(tree.left) or _is_one("×")(_bare(tree.left))
    return False


def _part_taken(tree: Writing) -> bool:
    """1/2 × 2/3: a part of an amount."""
    match tree:
        case Op("×", Frac(top, bottom), Whole() | Frac() | Mixed() | Decimal()):
            return top < bottom
    return False


def _sum_less(tree: Writing) -> bool:
    """Whether something is taken from a sum: 118 + 96 − 75."""
    match _bare(tree):
        case Op("−", Op("+", _, _), _):
            return True
    return False


def _halved_less(tree: Writing) -> bool:
    """38 ÷ 2 − 11."""
    match tree:
        case Op("−", halved, Whole() | Decimal() | Frac() | Mixed()):
            return _is_one("÷")(_bare(halved))
    return False


def _for_each_times(tree: Writing) -> bool:
    """84 ÷ 7 × 5."""
    match tree:
        case Op("×", shared, Whole() | Decimal() | Frac() | Mixed()):
            return _is_one("÷")(_bare(shared))
    return False


def _by_difference(sign: str) -> Shape:
    """Something multiplied, or divided, by a difference in brackets: 20 × (7 − 3)."""

    def fits(tree: Writing) -> bool:
        match tree:
            case Op(found, _, Group(Op("−", _, _))):
                return found == sign
        return False

    return fits


def _share_squared(tree: Writing) -> bool:
    """(36 ÷ 4) × (36 ÷ 4)."""
    match tree:
        case Op("×", left, right):
            return left == right and _is_one("÷")(_bare(left))
    return False


def _less_some(tree: Writing) -> bool:
    """Whether the last thing done is to take away."""
    return isinstance(tree, Op) and tree.sign == "−"


def _of_several(tree: Writing) -> bool:
    return sum(isinstance(node, Op) for node in walk(tree)) > 1


_SOME_MORE = r"(?:\d|\d/\d)(?: [a-z]+)? (?:more|fewer|less)\b[^.?!]*\bthan\b"
_SIDE_BY_SIDE = (
    r"^[^.?!\d]*\b(?:has|had|have|holds?|held|contains?|contained|there (?:were|are|was|is))\b"
    r"[^.?!\d]*[\d,]+[^.?!\d]*\band\b[^.?!\d]*[\d,]+[^\d]*[\d,]+[^\d]*$"
)
"""What was there told side by side, and one amount more: 118 pea seeds and 96 bean seeds."""
_AT_FIRST = (
    r"\b(?:at first|to begin with|at the (?:start|beginning)|originally|(?:start|begin) with)\b"
)
_SAME_RATE = r"\b(?:same|that|this) (?:rate|speed|price|pace)\b|\bidentical\b"
_PERCENT = r"%|\bpercent\b"
_A_NUMBER = r"\ba(?: certain)? number\b|\d[a-z]\b|\b[a-z] ?[+−×÷=]"
_NUMBER_ASKED = (
    r"\b(?:what (?:is|was)|find) (?:the|his|her|my) (?:starting |original )?number\b"
    r"|\b(?:what is|then|find) [a-z]\b(?! [a-z])|\b[a-z] ?=\s*$"
)
_THAN = r"\b(?:more|fewer|less|[a-z]+er)\b[^.?!,]*\bthan\b"
_CHANGED = r"\b(?:now|then|lost|loses?|gave away|gives away)\b"
_CHAIN = rf"^(?!.*{_CHANGED}).*{_THAN}[^?]*{_THAN}"
_BY_HOW_MUCH = (
    r"\bhow (?:many|much) (?:[a-z]+ )?(?:warm|cold|hott|cool|high|low|long|short|tall|heavi|light"
    r"|old|young|fast|wid|deep|farth|furth)er\b|\bhow (?:many|much) [a-z ]*\b(?:rise|fall|drop)\b"
)
_EQUATION = r"(?:\d|\b)[a-z]\b[^.?!a-z]*=|=[^.?!a-z]*\b\d*[a-z]\b"
_LETTER_ASKED = (
    r"\b(?:what (?:is|does)|find|solve for) [a-z]\b(?! [a-z])|\b(?:value|number) (?:of|for) [a-z]\b"
    r"|\b(?:solution|solve)\b|\b[a-z] ?=\s*$"
)
_SPEED_ASKED = (
    r"\bwhat (?:is|was) (?:the |his |her |its |their |\w+'s )?(?:average )?speed\b"
    r"|\bat what (?:average )?speed\b|\bhow fast\b"
)
_ONE_MISSING = r"\b(?:third|fourth|fifth|last|other|missing|next)\b"

_FORMS = (
    Form(asked="part of", set_up="percent", shape=lambda e: takes_percent(e) is not None,
         words=_PERCENT),
    Form(asked="percent added", set_up="percent added", shape=_with_percent("+"), words=_PERCENT),
    Form(asked="percent off", set_up="percent off", shape=_with_percent("−"), words=_PERCENT,
         of=("steps", "take apart", "take from")),
    Form(asked="speed", set_up="speed", shape=_is_one("÷"), question=_SPEED_ASKED),
    Form(asked="scale", set_up="scale", shape=_is_one("×"), question=r"\b(?:real|actual)\b",
         words=r"\b(?:stands? for|represents?)\b"),
    Form(asked="in order", set_up="in order", shape=_only_times,
         question=r"\bhow many (?:different )?(?:ways|orders)\b[^?]*\b(?:row|line|order|side)\b"),
    Form(asked="ways", set_up="ways", shape=_only_times,
         question=r"\bhow many (?:different|possible)\b|\bcombinations\b"),
    Form(asked="expected", set_up="expected", shape=_for_each_times,
         question=r"\bexpect|\blikely\b"),
    Form(asked="pattern", set_up="pattern", shape=_of_several, question=r"\bpattern\b"),
    Form(asked="probability", set_up="probability", shape=_is_one("÷"),
         question=r"\b(?:probability|chance)\b"),
    Form(asked="probability", set_up="probability", shape=_by_a_sum,
         question=r"\b(?:probability|chance)\b"),
    Form(asked="steps", set_up="profit", shape=_by_difference("×"), words=r"\bprofit\b"),
    Form(asked="steps", set_up="two kinds", shape=_by_difference("÷"), words=r"\btickets\b"),
    Form(asked="steps", set_up="two parts", shape=_by_a_sum,
         words=r"\b(?:times|twice) as long as the other\b"),
    Form(asked="ratio", set_up="ratio", shape=_by_a_sum, words=r"\bratio\b"),
    Form(asked="area", set_up="triangle", shape=_product_shared, words=r"\btriang",
         question=r"\barea\b"),
    Form(asked="equal side", set_up="equal side", shape=_is_one("÷"),
         words=r"\bperimeter\b", question=r"\bside\b", of=("steps", "group size")),
    Form(asked="the rest", set_up="the rest", shape=_part_taken_off,
         words=r"\b(?:rest|others?|remaining|left|not|don't|aren't)\b",
         of=("steps", "part of", "take apart", "take from")),
    Form(asked="steps", set_up="and others", shape=_with_one_more,
         words=r"\band (?:(?:his|her|their|the) )?(?:\d+|[a-z]+) (?:other )?[a-z]+\b[^.]*\b(?:each"
         r"|evenly|equally)\b"),
    Form(asked="equal share", set_up="sum shared", shape=_sum_shared,
         words=r"\b(?:split|shar|divid)[^.]*\b(?:equally|evenly)\b",
         question=r"\beach\b|\bshare\b"),
    Form(asked="mean back", set_up="mean back", shape=_taken_off_product,
         words=r"\b(?:average|mean)\b", question=_ONE_MISSING),
    Form(asked="time between", set_up="time between", shape=_of_several,
         words=r"\d:\d\d\b.*\d:\d\d\b", question=r"\bhow (?:many (?:minutes|hours)|long)\b"),
    Form(asked="part as much", set_up="part as much", shape=_is_one("×"),
         words=r"\b(?:half|third|fourth|quarter|fifth|\d/\d) as (?:many|much)\b"),
    Form(asked="times as many", set_up="times as many", shape=_is_one("×"),
         words=r"\btimes as (?:many|much)\b|\btwice as\b"),
    Form(asked="volume", set_up="volume", shape=_only_times, words=r"\bvolume\b|\bcubic\b",
         question=r"\bvolume\b|\bcubic\b", of=("steps", "bare", "area")),
    Form(asked="area", set_up="square back", shape=_share_squared, words=r"\bperimeter\b",
         question=r"\barea\b"),
    Form(asked="change", set_up="steps", shape=_less_some, question=r"\bchange\b",
         of=("steps", "take from", "take apart")),
    Form(asked="difference", set_up="difference", shape=_is_one("−"), question=_BY_HOW_MUCH,
         of=("take apart", "take from")),
    Form(asked="put together", set_up="steps", shape=_of_several, words=_CHAIN,
         question=r"\b(?:in all|altogether|together|total)\b", of=("in and out",)),
    Form(asked="by comparing", set_up="by comparing", shape=_of_several, words=_CHAIN,
         of=("in and out",)),
    Form(asked="side back", set_up="side back", shape=_halved_less, words=r"\bperimeter\b"),
    Form(asked="start back", set_up="start back", shape=_of_several, question=_AT_FIRST,
         of=("in and out",)),
    Form(asked="take from", set_up="all less some", shape=_sum_less, words=_SIDE_BY_SIDE,
         of=("in and out",)),
    Form(asked="rate", set_up="rate", shape=_for_each_times, words=_SAME_RATE, of=("steps",)),
    Form(asked="rate", set_up="rate", shape=_for_each_times, of=("equal groups",)),
    Form(asked="part of", set_up="part of", shape=_part_taken),
    Form(asked="larger", set_up="larger", shape=_is_one("+"), words=_SOME_MORE),
    Form(asked="smaller", set_up="smaller", shape=_is_one("−"), words=_SOME_MORE),
    Form(asked="letter", set_up="letter", shape=_is_one("+−×÷"), words=_EQUATION,
         question=_LETTER_ASKED, of=("bare",)),
    Form(asked="letter", set_up="number back", shape=_of_several, words=_EQUATION,
         question=_LETTER_ASKED, of=("bare",)),
    Form(asked="put in", set_up="put in", shape=lambda e: isinstance(e, Op), of=("bare",),
         words=r"\b(?:when|if|for|where|let) [a-z] ?(?:=|is\b|equals\b)"),
    Form(asked="number back", set_up="number back", shape=_of_several, words=_A_NUMBER,
         question=_NUMBER_ASKED, of=("steps", "bare")),
    Form(asked="bare", set_up="power", shape=is_power, words=r"[²³⁴⁵]|\^", of=("bare",)),
    Form(asked="in percent", set_up="in percent", question=r"\bpercent\b", of=("bare",),
         shape=lambda e: isinstance(e, Op) and e.sign == "×" and e.right == Whole(HUNDRED)),
    Form(asked="as decimal", set_up="as decimal", shape=_is_one("÷"), of=("bare",),
         words=r"\bdecimal\b"),
    Form(asked="goes on", set_up="goes on", shape=_is_one("+−×"), of=("bare",),
         words=r"\b(?:sequence|pattern)\b|\bcomes next\b|\bnext (?:number|term)\b"),
)  # fmt: skip

_IN_SIGNS = Form(asked="bare", set_up="in signs", shape=lambda _: True)
"""What is told in words that are no story: the product of 36 and 305."""
