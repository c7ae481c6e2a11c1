"""Sums and differences of amounts of one measure: by what there was, what comes, goes and is left.

Each amount is a letter by what its words tell: `s` what there was, `e` what there is at the end,
`g` what comes, `l` what goes, `d` what is done; `p` some of what was told, `t` all there is. A row
is what is asked, a pattern over the letters, and the forms of a line that could be right, the
likeliest first.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_kinds import holds, of_all
from narrate.reading.words.offered_sides import sides
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

_ROWS: tuple[tuple[str, str, str], ...] = (
    ("ago", "..", "apart"),
    ("in_years", "..", "sum"),
    ("differ sided", ".+", "sides"),
    ("need", ".+", "apart"),
    ("differ", "..", "apart"),
    ("asks_told", ".+", ""),
    ("!total", "(?:[sed]+e|es)", "apart"),
    ("emptied", "..", "apart"),
    ("got_back cost !left", "..", "apart"),
    ("short !owns", "..", "sum"),
    ("short", "..", "apart"),
    ("asks_done !left", "[^tpe]+", "sum"),
    ("!total changed", "ss", "apart"),
    ("start", "(?:[gl]+[set]|[set][gl]+)", "back"),
    ("start", "..", "back sum"),
    ("!left", "[lp]+e", "back"),
    ("!left", "g+e", "back apart"),
    ("", "s[gl]+e", "gap"),
    ("total !left", "[^e]+", "sum"),
    ("", "(?:.p|p.|tp+|pt|[^t]+t|t[^t]+)", "apart"),
    ("left|now", "[sgdt]l", "apart"),
    ("left|now", "[sgdt]+l[gl]*", "chain"),
    ("not differing", ".+", ""),
    ("rest|left|not|other", "..+", "apart"),
    ("", "..*[lp].*", "chain"),
    ("now", "l+s", "chain"),
    ("", "l+", "sum"),
    ("", "l[gs]", "back chain"),
    ("", "[sgd]{2}", "sum apart"),
    ("", "s*g*|d+", "sum"),
)


def sums(told: Told) -> Iterator[str]:
    """Lines of the plain amounts put together or taken from each other."""
    amounts = told.of("amount")
    if len(amounts) != len(told.amounts) or len(amounts) < 2 or not add_up(amounts):
        return
    if not (any(a.unit for a in amounts) or told.asks(_BARE)):
        return
    letters = letters_of(told)
    for asked, pattern, forms in _ROWS:
        if re.fullmatch(pattern, letters) and holds(told, asked):
            if forms == "sides":
                yield from _of_sides(told, letters)
            else:
                yield from (FORMS[form](amounts, letters) for form in forms.split())
            return


_BARE = "sum|total|difference|altogether|in all|more|fewer|less|left|greater|than|farther"
"""What a question says of numbers that count nothing, where they are added or taken away."""


def _of_sides(told: Told, letters: str) -> Iterator[str]:
    """How many more there are on one side than on the other: more figs than nuts."""
    mine, others = sides(told)
    amounts = told.of("amount")
    if mine and others and len(mine) + len(others) == len(amounts):
        by_side = [
            (chain(s, "".join(x for x, a in zip(letters, amounts, strict=True) if a in s)), s)
            for s in sorted((mine, others), key=lambda s: -sum(a.worth for a in s))
        ]
        more, (less, several) = by_side[0][0], by_side[1]
        yield f"{more} − ({less})" if len(several) > 1 else f"{more} − {less}"
    elif re.fullmatch("s[lpe]", letters):
        first, second = amounts
        rest, taken = first.worth - second.worth, second.said
        left = f"{first.said} − {taken}"
        yield f"{left} − {taken}" if rest >= second.worth else f"{taken} − ({left})"
    elif re.fullmatch("[sgd]{2}|ll", letters):
        yield apart(amounts, letters)


# -- what the words tell of each amount


def letters_of(told: Told) -> str:
    """The letter of each plain amount in order."""
    return "".join(_letter(told, amount) for amount in told.of("amount"))


def _letter(told: Told, amount: Amount) -> str:
    q = amount.told
    said = _words(told, q)
    if q.partitive or _is_kind(told, q):
        return "l" if _goes(told, q, said) else "p"
    if (q.total or of_all(told, amount)) and not told.asks(_ALL):
        return "t"
    if moved := _moved(told, q, said):
        return moved
    if q.verb_sort in ("be", "own") or q.verb in _IS_SO or _is_end(told, q):
        return "e" if _is_end(told, q) else "g" if q.more else "s"
    if q.more or _is_given_to_owner(told, q):
        return "g"
    if re.search(r"\bfrom \$?$", told.text[: q.start]):
        return "s"
    return "l" if _goes(told, q, said) else _LETTERS.get(q.verb_sort, "d")


def _moved(told: Told, q: Quantity, said: str) -> str:
    """The letter of what a measure went up or down by, "" where it is told how it stood."""
    if re.search(r"\b(?:to|at|from|reach(?:ed|es|ing)) \$?$", told.text[: q.start]):
        return ""
    up, down = (re.search(rf"\b(?:{words})\b", said) for words in (_UP, _DOWN))
    return "g" if up and not down else "l" if down and not up else ""


_UP = r"warmed|rose|risen|went up|gone up|climbed|increased"
_DOWN = r"cooled|fell|fallen|dropped|went down|gone down|decreased"


_LETTERS = {"gain": "g", "lose": "l", "take": "l"}
_IS_SO = word_set("measure weigh cost stretch end begin start reach show read stand fill")
_MOVES = (
    r"(?:got|gets?|went|goes|go|walk\w*|ran|runs?|flew|flies|crawl\w*|hop\w*|climb\w*|swam|moved?s?"
    r"|drove|step\w*|wander\w*|pour\w*|pump\w*|scoop\w*|spoon\w*|ladl\w*|splash\w*|shook|tipp\w*"
    r"|t(?:ake|akes|ook|aken)|carr\w*|g(?:ave|ives?|iven)|let|slid\w*)"
)
_GOES = re.compile(
    rf"\b{_MOVES} (?:[\w/]+ ){{0,4}}?(?:off|away|out|home|inside|back|down)\b"
    r"|\b(?:caught|cook(?:s|ed)|popp\w+|stole\w*|spill\w*|lighter|shorter"
    r"|peeled|broken?|bruised|spoiled|rotten|ruined|damaged|missing|absent|cracked|fell|fallen|dropped|sank)\b"
)
_COMES = re.compile(r"\b(?:got|gets?|climbed|hopped) on\b|\bjoin\w*|\bbrought\b|\bput in\b")


_ALL = r"altogether|in all|total|together|combined|in total"


def _is_kind(told: Told, q: Quantity) -> bool:
    """Whether an amount is some of those told before: there are 24 pupils; 13 are girls."""
    first = told.of("amount")[0].told
    there = q.verb in ("be", "have") and q.borrowed and q.before_verb
    return there and q is not first and not _is_end(told, q)


def _words(told: Told, q: Quantity) -> str:
    """The words of the clause that an amount stands in."""
    if q.clause >= len(told.clauses):
        return told.question
    return " ".join(t.low for t in told.clauses[q.clause].tokens)


def _goes(told: Told, q: Quantity, said: str) -> bool:
    if _is_given_to_owner(told, q) or _COMES.search(said):
        return False
    if into := re.search(r"\b(?:into|onto) (?:an?|the|his|her|its) (?:\w+ )?(\w+)", said):
        asked = re.findall(r"[a-z]+", told.question)
        return into[1] not in asked  # into the pot that is asked about
    return q.verb_sort in ("lose", "take") or _GOES.search(said) is not None


def _is_end(told: Told, q: Quantity) -> bool:
    """Whether an amount is what there is at the end: now, left, grew to 41, after some went."""
    if re.search(r"\bto (?:be )?\$?$", told.text[: q.start]) and q.verb != "give":
        return True
    if re.search(r"\bfrom \$?$", told.text[: q.start]):
        return False
    there = q.verb_sort in ("be", "own") or q.verb in _IS_SO
    at_end = q.after or q.left or bool({"now", "later", "end", "then"} & q.near)
    behind = re.match(r"[^.?!]*?\bafter (?!that\b|this\b)", told.text[q.end :])
    return there and (at_end or behind is not None or _opens_after(told, q))


def _opens_after(told: Told, q: Quantity) -> bool:
    """Whether the sentence of an amount opens with what happened before: after 8 went, ..."""
    opening = re.split(r"[.?!] ", told.text[: q.start])[-1]
    return re.match(r"\s*(?:after|when) (?!that|this|lunch|school)", opening) is not None


def _is_given_to_owner(told: Told, q: Quantity) -> bool:
    """Whether what one gives away comes to the one who is asked about: Ben gave her 3."""
    asked = told.query.words
    comes = bool(q.to & ({"him", "them"} | asked)) or q.to == {"her"}
    return q.verb_sort == "lose" and comes and not q.who & asked


# -- forms of a line


def chain(amounts: Sequence[Amount], letters: str) -> str:
    """The first, and the others as they come and go: 38 − 9 + 15."""
    pairs = list(zip(letters, amounts, strict=True))
    first = next((i for i, (x, _) in enumerate(pairs) if x in "st"), 0)
    if letters[first] in "lp":
        first = max(range(len(pairs)), key=lambda i: pairs[i][1].worth)
    rest = [(x, a) for i, (x, a) in enumerate(pairs) if i != first]
    return " ".join(
        [pairs[first][1].said, *(f"{'−' if x in 'lp' else '+'} {a.said}" for x, a in rest)]
    )


def apart(amounts: Sequence[Amount], letters: str) -> str:
    """The others taken from the largest."""
    del letters
    most = max(amounts, key=lambda a: a.worth)
    return " − ".join(a.said for a in (most, *(a for a in amounts if a is not most)))


def sum_of(amounts: Sequence[Amount], letters: str) -> str:
    """All put together."""
    del letters
    return " + ".join(a.said for a in amounts)


def back(amounts: Sequence[Amount], letters: str) -> str:
    """What there was before: what there is at the end, without what came, with what went."""
    end = next((i for i in reversed(range(len(letters))) if letters[i] in "est"), len(letters) - 1)
    others = [(x, a) for i, (x, a) in enumerate(zip(letters, amounts, strict=True)) if i != end]
    if all(letter in "lp" for letter, _ in others):
        return sum_of(amounts, letters)
    return " ".join(
        [amounts[end].said, *(f"{'+' if x in 'lp' else '−'} {a.said}" for x, a in others)]
    )


def gap(amounts: Sequence[Amount], letters: str) -> str:
    """What is untold between what there was, what came or went, and what there is at the end."""
    *told, end = amounts
    before = sum(a.worth * (-1 if x == "l" else 1) for x, a in zip(letters, told, strict=False))
    work = chain(told, letters[: len(told)])
    return f"{work} − {end.said}" if before >= end.worth else f"{end.said} − ({work})"


FORMS: dict[str, Callable[[Sequence[Amount], str], str]] = {
    "chain": chain, "apart": apart, "sum": sum_of, "back": back, "gap": gap,
}  # fmt: skip


def together(told: Told) -> str:
    """The plain amounts of a story as they come and go, before they are shared or grouped."""
    amounts, letters = told.of("amount"), letters_of(told)
    goes = bool(re.search("[lp]", letters[1:])) or bool(re.match("[lp][st]", letters))
    return chain(amounts, letters) if goes and add_up(amounts) else sum_of(amounts, letters)


def add_up(amounts: Sequence[Amount]) -> bool:
    """Whether no two of the amounts measure unlike things: cups and batches, feet and hours."""
    units = {a.unit for a in amounts if a.measured}
    counted = [a for a in amounts if a.unit and not a.measured]
    return len(units) < 2 and not (units and counted)
