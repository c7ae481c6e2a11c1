"""Items as unlike a good one as a tired teacher or a broken export makes them, by a fixed seed.

`odd_item` starts from good or odd sums (terms of 0, repeated, whole, huge, totals below zero) in
any form of question, alone or in parts, and then breaks it: keys removed, swapped or filled with
text that does not belong there.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

Source = dict[str, Any]

ODD_TEXTS: tuple[Any, ...] = (
    "", " ", "0", "-1", "1/0", "0/5", "5/5", "3 0/4", "2 7/4", "1/2/3", "½", "2½", "1,000/3",
    "123456789012/7", "999999999999", "9999999999999", "1/999999999989", "□", "?", "□/4", "3/4 +",
    "(1/2", "1/2)", "three fourths", "½ + ⅓", "A", "a", "A, B", "all", "true", "yes", "{{ x }}",
    "{% raw %}", "<script>alert(1)</script>", "</script>", "=SUM(A1)", "\u202eabc", "e\u0301",
    "\ufffe", "\x00", "x" * 2500, "1/2 = 1/3", "1/2 = □ = 1", "□ + □ = 1", "□ − 1/2 = 1/3",
    "1/2 = 3/□", "0/□ = 1/2", "3/□ = 0", "3/4 × 2", "6 ÷ 2", "2 × 1/2 + 1", "0.5", "1/2 + 0.25",
    "−1/2", "- 1/2", "1/2--1/3", "−(−1/2)", "2(1/3)", "(1 + 2)/(3 + 4)", "(1/2)/(1/3)", "number",
    "whole, numerator", "numerator", ["numerator"], [], {}, {"A": "1/2"}, ["1/2"], ["1/2", "1/2"],
    7, -3, 0.5, True, None, [None], "100 cm", "3/4 cup", "0 cups", "1/2 or 2/4", "2/4 of it",
    "It is more than 1/2.", "1/2 + " * 20 + "1/2", "1 - 1 - 1", "1/2 > 1/3", "x + 1/2 = 1", "−",
    {"strip": {"wholes": 1, "parts": 7}}, {"strip": {"wholes": 99, "parts": 0}}, [["A"]], "\n- x",
)  # fmt: skip
"""Values for any key: texts, lists and keys that belong elsewhere or nowhere."""

BOXES: tuple[Any, ...] = (
    ["number"],
    ["numerator", "denominator"],
    ["whole", "numerator", "denominator"],
    ["whole", "numerator", "denominator", "cups"],
)
_ASKS = (
    "What is {}?",
    "{} = □",
    "Find {}.",
    "Noor works out {}. What does she get?",
    "Work out {} in simplest form.",
    "Write {} as a mixed number.",
    "Write {} as an improper fraction.",
)
_STORIES = (
    "The cooks have {} cups. How many cups is that in all?",
    "Wen used {} of the compost. What fraction of it is left?",
    "The vine is {} feet long. How much longer is it than the other one?",
    "Ana's bean is {} taller than Bo's. How tall is it?",
    "How many liters are in the barrel now, after {} liters?",
)
_KEYS = (
    "id", "label", "standard", "grade", "stem", "stimulus", "choices", "boxes", "unit", "select",
    "simplest", "key", "model", "claim", "way", "parts", "ask", "note", "diagram", "stems", "",
)  # fmt: skip


def odd_item(random: Random, number: int) -> Source:
    """One item as its file holds it; `id` is `item-<number>` unless the id itself is broken."""
    question = _question(random)
    item = _in_parts(random, question) if random.random() < 0.3 else question
    item = {"id": f"item-{number}", **item}
    for _ in range(random.choice((0, 0, 0, 1, 1, 2))):
        _break(random, item)
    return item


# -- amounts


def _amount(random: Random) -> str:
    bottom = random.choice((1, 2, 2, 3, 4, 4, 5, 6, 7, 8, 10, 12, 12, 15, 24, 82, 100, 999983))
    top = random.choice((0, 1, 1, 2, 3, 5, 7, 11, 40))
    kind = random.random()
    if kind < 0.15:
        return str(random.choice((0, 1, 1, 2, 6, 40, 999999999999)))
    if kind < 0.4:
        return f"{random.choice((1, 1, 2, 5, 12))} {top}/{bottom}"
    return f"{top}/{bottom}"


def odd_sum(random: Random) -> str:
    """A sum of one to five amounts; one may come again, the total may be 0 or less."""
    amounts = [_amount(random) for _ in range(random.choice((1, 2, 2, 2, 2, 3, 3, 4, 5)))]
    if random.random() < 0.2:
        amounts.append(amounts[0])
    text = ("−" if random.random() < 0.05 else "") + amounts[0]
    for amount in amounts[1:]:
        text += f" {random.choice('++-−')} {amount}"
    return text


# -- questions


def _question(random: Random) -> Source:
    text = odd_sum(random)
    question: Source = {"stem": random.choice(_ASKS).format(text)}
    if random.random() < 0.5:
        question["model"] = text
    if random.random() < 0.35:
        amounts = text.replace(" + ", " and ").replace(" - ", " and ").replace(" − ", " and ")
        question = {"stem": random.choice(_STORIES).format(amounts), "model": text}
    question |= random.choice(_ANSWERED)(random, text)
    if random.random() < 0.2:
        question["simplest"] = random.choice(("true", "false", True))
    if random.random() < 0.2:
        question["way"] = random.sample(
            ("multiples", "product", "larger", "improper", "mixed"), random.choice((1, 2, 5))
        )
    if random.random() < 0.25:
        strip = {"wholes": random.choice((1, 2, 12)), "parts": random.choice((1, 4, 12, 60, 100))}
        question["stimulus"] = {"diagram": {"strip": strip}}
        if random.random() < 0.5:
            question["stimulus"]["text"] = "The strip shows 1/4 of a bed, or so Wen says."
    return question


def _boxed(random: Random, text: str) -> Source:
    return {"boxes": random.choice(BOXES)}


def _with_choices(random: Random, text: str) -> Source:
    """Choices that may all be right or all be wrong, of any form."""
    texts = [_amount(random), _amount(random), odd_sum(random), text, f"{_amount(random)} cups"]
    found: Source = {}
    if random.random() < 0.2:
        texts.append("It cannot be told.")
        found["key"] = "A"
    random.shuffle(texts)
    found["choices"] = dict(zip("ABCDEF", texts, strict=False))
    if random.random() < 0.5:
        found["select"] = "all"
    if random.random() < 0.3:
        found["key"] = random.choice(("A", "B", ["A", "C"], "A, B", "Z"))
    return found


def _first_line(random: Random, text: str) -> Source:
    lines = [text, odd_sum(random), "(1 + 2)/(3 + 4)", "(9 − 2)/12", "6/12 + 6/12"]
    stem = f"Which could be the first line of work for {text}?"
    return {"stem": stem, "choices": dict(zip("ABCDE", lines, strict=True))}


def _missing(random: Random, text: str) -> Source:
    equation = random.choice(("{} = □", "□ + {} = 3", "{} = □/24", "5 − □ = {}", "{} = 6/□"))
    return {"stem": f"What number makes {equation.format(text)} true?", "boxes": ["number"]}


def _claim(random: Random, text: str) -> Source:
    claim = random.choice((_amount(random), _amount(random), text))
    asks = random.choice(("What went wrong?", "Is he right?", "Find the mistake."))
    return {"stem": f"Tavi says that {text} is {claim}. {asks}", "claim": claim}


_ANSWERED: tuple[Callable[[Random, str], Source], ...] = (
    _boxed,
    _boxed,
    _with_choices,
    _with_choices,
    _first_line,
    _missing,
    _claim,
)


def _in_parts(random: Random, question: Source) -> Source:
    """Two or three parts that use the first one's sum again, or another one."""
    stimulus = question.pop("stimulus", {"text": f"A bed got {question.get('model', '1/2')}."})
    parts = []
    for _ in range(random.choice((1, 2, 2, 3))):
        part = dict(question) if random.random() < 0.5 else _question(random)
        part.pop("stimulus", None)
        parts.append({"ask": part.pop("stem"), **part})
    return {"stimulus": stimulus, "parts": parts}


# -- breaking


def _break(random: Random, item: Source) -> None:
    """One thing wrong, in the item or in one of its parts or choices."""
    places = [item, *(entry for entry in item.values() if isinstance(entry, dict))]
    if isinstance(item.get("parts"), list):
        places += [part for part in item["parts"] if isinstance(part, dict)]
    place = random.choice([entry for entry in places if entry] or [item])
    key = random.choice(list(place))
    match random.randrange(5):
        case 0:
            del place[key]
        case 1:
            other = random.choice(list(place))
            place[key], place[other] = place[other], place[key]
        case 2:
            place[key] = random.choice(ODD_TEXTS)
        case 3:
            place[random.choice(_KEYS)] = random.choice(ODD_TEXTS)
        case _:
            place[random.choice(_KEYS)] = place.pop(key)
