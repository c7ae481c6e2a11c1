"""Which sums and differences of plain amounts the words of a story license.

A sum is offered where all are asked for, and nothing went; a difference where what is left, what is
missing or how two compare is asked for, of what there was without what went; a chain where every
amount is told to come or to go.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.reading.words.lexicon import CLASS_OF, TIMES, UNITS, VERBS
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_kinds import of_all
from narrate.reading.words.offered_shape import Offer
from narrate.reading.words.offered_sums import letters_of
from narrate.reading.words.plain import word_set

TOTAL = (
    r"altogether|in all|total|both|together|combined|sum"
    r"|does (?:that|this|it) make|is that|how much is it"
)
LEFT = (
    r"left|remain\w*|leftover|now|end|ended|still|then|stay\w*|after|later|un\w+ed|not|survive[ds]?"
)
_START = (
    r"at first|before|at the (?:start|beginning)|beg[ai]n|start(?:ed|s)?|original\w*|initial\w*"
)
_REST = r"rest|others|remaining|remainder|other|another|third|second|first|last|neither|not|n't"
_SOME = (
    r"some|several|few|many more|a number|a lot|lots|the rest|more \w+ than|more than|fewer than"
    r"|than"
)
KINDS = word_set(
    "people person passenger child pupil student animal vegetable fruit flower plant thing item "
    "object tool "
    "coin toy seed guest member piece book ticket helper tree herb bulb jar container letter bird "
    "cat dog meal drink snack shirt"
)
"""Words of what amounts of several kinds are put together as."""

_BOXES = word_set(
    "crate bag box pack package carton sack basket dozen pair bunch case bottle jar row tray set "
    "bundle bucket packet group team stack pile page"
)


def asks_all(story: Told) -> bool:
    """Whether all are asked for, in the question or before it: Altogether, how many?"""
    return (
        story.query.total
        or story.asks(TOTAL)
        or re.search(rf"\b(?:{TOTAL}), (?=how|what)", story.text) is not None
    )


def sum_stands(made: Offer) -> bool:
    """Whether the words license two plain amounts that are put together, or one without the other.

    Both are told by one verb, and it is not asked what is left: where that was plain, it was read.
    """
    story = made.story
    letters = _letters(made)
    if "?" in letters or len({id(a) for a in made.amounts}) != len(made.amounts):
        return False
    if len({a.told.verb for a in made.amounts}) > 1 or _is_box_and_thing(made):
        return False
    if "−" not in made.shape:
        return _is_sum(made, letters)
    return not story.asks(r"left|remain\w*|now|still") and _is_difference(made, letters)


def chain_stands(made: Offer) -> bool:
    """Whether the words license a chain: some went, then some came."""
    letters = _letters(made)
    if "?" in letters or len({id(a) for a in made.amounts}) != len(made.amounts):
        return False
    return not _is_box_and_thing(made) and _is_chain(made, letters)


def _letters(made: Offer) -> str:
    """What each amount of a line is told to be, in its order."""
    story = made.story
    letters = {id(a): x for a, x in zip(story.of("amount"), letters_of(story), strict=True)}
    return "".join(letters.get(id(a), "?") for a in made.amounts)


# -- sums


def _is_sum(made: Offer, letters: str) -> bool:
    story = made.story
    if _is_before(made, letters):
        return True
    if story.says(_SOME) or re.search("[etlp?]", letters.replace("l", _same_verb(made, "l"))):
        return False
    if story.asks(_LEFT_OVER) or _tells_loss(story, made) or story.query.sign:
        return False
    if not _one_kind(made) or _is_more_than_another(made) or _asks_one_owner(made):
        return False
    if story.asks("than|more|fewer|less|difference|by how"):
        return False
    same = {a.told.verb for a in made.amounts} == {story.query.verb} and story.query.verb != "be"
    grows = re.fullmatch("[sd]?g+", letters) and story.query.verb_sort in ("be", "own")
    return bool(asks_all(story) or same or grows) and not _of_some_kinds(made)


_LEFT_OVER = r"left|remain\w*|leftover|rest|others|change|not|n't"


def _same_verb(made: Offer, letter: str) -> str:
    """A letter, or another where what was lost is what is asked for: sold, and sold; how many?"""
    done = {a.told.verb for a in made.amounts}
    return "d" if len(done) == 1 else letter


def _is_before(made: Offer, letters: str) -> bool:
    """Whether a sum is what there was before some went: gave 14 away and still has 39."""
    story = made.story
    lost = letters.replace("e", "", 1)
    ended = "e" in letters or (re.search("[sg]", letters) and story.says("left|still|remain\\w*"))
    gone = re.fullmatch("[lp]+", lost) or re.fullmatch("[lp]+[sg]?", letters)
    return bool(story.asks(f"{_START}|had|at all") and ended and gone and not story.says("than"))


def _tells_loss(story: Told, made: Offer) -> bool:
    """Whether the story tells that something went, by no amount that is put together."""
    used = {a.told.verb for a in made.amounts}
    words = re.findall("(?!leaves)[a-z]+", story.text.replace(story.question, ""))
    gone = {VERBS[w] for w in words if w in VERBS and CLASS_OF.get(VERBS[w]) in ("lose", "take")}
    return bool(gone - used - _IDLE_VERBS)


_IDLE_VERBS = word_set("leave use fly take saw cut fall spend send pass finish return trade mail")
_IDLE_VERBS -= word_set("leave use take cut fall spend return trade")


def _one_kind(made: Offer) -> bool:
    """Whether the amounts of a sum are of one kind, that is asked for, or of what holds them."""
    story = made.story
    heads = {a.unit for a in made.amounts} - {""}
    asked = {story.head, *story.query.thing, *(w for t in story.query.also for w in t)} - {""}
    if (
        story.head
        and story.head not in UNITS | KINDS
        and not any(story.head in a.names for a in made.amounts)
    ):
        return False
    if not asked:
        return len(heads) <= 1 or not heads & UNITS
    if all(not a.names or a.names & asked for a in made.amounts):
        return True
    if asked & UNITS or heads & UNITS:
        return bool(heads & asked) and len(heads) <= 1
    return story.head in KINDS or (len(heads) == 1 and bool(heads & asked))


def _is_more_than_another(made: Offer) -> bool:
    """Whether "more" holds one person's amount against another's: Bo needs 2 more pounds."""
    verbs = [a.told.verb for a in made.amounts]
    owners = {a.told.who for a in made.amounts}
    return len(owners) > 1 and any(
        a.told.more and (a.told.verb in ("need", "be", "have") or verbs.count(a.told.verb) > 1)
        for a in made.amounts
    )


def _asks_one_owner(made: Offer) -> bool:
    """Whether the amounts are of several people, and the question names some of them, not all."""
    names = made.story.names - TIMES
    owners = {a.told.who & names for a in made.amounts} - {frozenset()}
    asked = made.story.query.words & names
    return len(owners) > 1 and bool(asked) and any(not owner & asked for owner in owners)


def _of_some_kinds(made: Offer) -> bool:
    """Whether the question names the kinds of some of the amounts, and not of all."""
    shared = frozenset.intersection(*(a.names for a in made.amounts))
    also = {w for t in made.story.query.also for w in t}
    asked = made.story.query.words | {*made.story.query.thing} | also
    own = [bool((a.names - shared) & asked) for a in made.amounts]
    return any(own) and not all(own)


def _is_box_and_thing(made: Offer) -> bool:
    """Whether one amount counts boxes and another what is in them: 6 crates, 48 onions."""
    boxes = [bool(a.names & _BOXES) for a in made.amounts]
    return any(boxes) and not all(boxes) and not any(not a.names for a in made.amounts)


# -- differences


def _is_difference(made: Offer, letters: str) -> bool:
    story = made.story
    first, *others = made.amounts
    if story.asks("change|back") and story.head == "dollar":
        return _is_change_back(made)
    if first.worth != max(a.worth for a in made.amounts) or asks_all(story):
        return _is_need(made)
    if story.query.sign or story.asks(_AGAINST) or story.says("by how"):
        return _is_need(made) or _is_comparison(made, letters)
    if story.says("than|twice|half") or _is_unlike(made):
        return False
    if story.asks(_START):
        return re.fullmatch("[est]g+|gs|[es]s", letters) is not None and _came(story, others)
    if first.told.total or of_all(story, first) or letters[0] == "t":
        return not re.search("[eg]", letters) or letters == "te"
    if re.fullmatch("[sdgp]p+", letters) and first is not others[0]:
        return story.asks(f"{LEFT}|{_REST}") or _asks_others(story, others)
    if re.fullmatch("[sdg][lp]+", letters):
        return story.asks(LEFT) and _is_another_verb(first, others)
    if story.says("and back") and story.asks("back"):
        return len(letters) == len("ab")
    if story.says("scale|weighs") and story.says(_UPON) and story.asks("weigh|heavy|weight|mass"):
        return len(letters) == len("ab")
    if story.says("empty") and {a.told.verb for a in made.amounts} == {"weigh"}:
        return len(letters) == len("ab") and not story.asks("each|one|per")
    if story.says("two|both") and story.says("one") and story.asks("other"):
        return len(letters) == len("ab")
    if story.says("into (?:two|2) (?:pieces|parts|sections)") and story.asks("other"):
        return len(letters) == len("ab")
    if re.fullmatch("s[sd]+", letters) and story.says("(?:and|all) (?:of )?the (?:rest|others)"):
        return bool(story.head) and not any(story.head in a.names for a in others)
    return re.fullmatch("[sdge][se]", letters) is not None and _is_change(made)


_UPON = r"with (?:the|her|his|its|a) [a-z]+ (?:on|in) (?:it|her|his|their|the)"


def _is_change_back(made: Offer) -> bool:
    """Whether the change is asked for of what was paid with, and one price."""
    paid, *prices = made.amounts
    with_it = paid.worth > sum(p.worth for p in prices) and len(prices) == 1
    several = made.story.says(r"two|three|four|five|each|different")
    return with_it and made.story.says(r"bill|pa(?:ys?|id)|hand\w*|gave|gives?") and not several


def _is_unlike(made: Offer) -> bool:
    """Whether things are taken from others, which are no kind of them: 6 chairs from 40 legs."""
    heads = {a.unit for a in made.amounts} - {""}
    kinds = heads & KINDS or made.story.says("rest|others")
    return len(heads) > 1 and not kinds


_AGAINST = r"than|difference|compared"


def _is_another_verb(first: Amount, others: Sequence[Amount]) -> bool:
    """Whether what there was is told in another way than what went: measured, and measured."""
    return all(a.told.verb != first.told.verb or a.told.partitive for a in others)


def _asks_others(story: Told, others: Sequence[Amount]) -> bool:
    """Whether the question asks for those that are told to be the rest."""
    told = {w for a in others for w in (*a.told.near, a.told.verb)}
    return story.says("rest|others|the other|remaining|remainder") and bool(
        (story.query.words | {story.query.verb}) - told
    )


def _came(story: Told, others: Sequence[Amount]) -> bool:
    """Whether what is taken away to find what there was came: grew, put in, was given."""
    gone = any(a.told.verb_sort in ("lose", "take") for a in others)
    return not gone and not story.says(r"sold|spent|gave away|ate|lost")


def _is_change(made: Offer) -> bool:
    """Whether it is asked what came or went between two amounts told."""
    query = made.story.query
    happened = query.verb_sort in ("gain", "lose", "take") or query.verb in _CHANGES
    same = any(a.told.verb == query.verb for a in made.amounts)
    return happened and not same and not made.story.says("twice|half|than")


_CHANGES = word_set("grow climb rise fall drop change move shrink put pour use eat carry")


def _is_need(made: Offer) -> bool:
    """Whether it is asked how many more are needed, of a goal: 8 cups, 3 are in already."""
    story = made.story
    first = made.amounts[0]
    if first.worth != max(a.worth for a in made.amounts) or story.asks("than"):
        return False
    asked = story.asks(
        r"(?:more|additional|another)\b.*\b(?:needs?|needed|must|add|to|fit|have to)"
    )
    goal = story.says(r"needs?|wants?|goal|recipe|calls? for|takes?|room for|must|reach|to fill"
        r"|holds?")  # fmt: skip
    return asked and goal and not _is_of_another(made)


def _is_of_another(made: Offer) -> bool:
    return len({a.unit for a in made.amounts} - {""}) > 1


def _is_comparison(made: Offer, letters: str) -> bool:
    """Whether how two compare is asked for, and both are told in one way."""
    story = made.story
    if len(made.amounts) != len("ab") or story.says(_MOVES):
        return False
    one, other = made.amounts
    if one.told.verb != other.told.verb and letters[0] != letters[1]:
        return False
    state = {a.told.verb_sort for a in made.amounts} <= {"be", "own"} or all(
        a.told.verb in _MEASURES for a in made.amounts
    )
    asks_state = story.asks(_STATES) or story.query.verb in ("be", "have")
    same = one.told.verb == story.query.verb
    return (state or same or not asks_state) and not story.asks("now|end|left|then")


_STATES = r"taller|heavier|longer|older|wider|deeper|higher|shorter|lighter|younger|warmer|cooler"
_MEASURES = word_set("weigh cost measure stand reach last stretch read be")
_MOVES = r"gave|gives|moved|until|after|then|lost|left"


# -- what comes and goes


def _is_chain(made: Offer, letters: str) -> bool:
    story = made.story
    asks_now = story.asks(f"{LEFT}|evening|end")
    if re.search(r"how many \w+ left\W*$", story.question) or story.query.than:
        return False
    if not asks_now or story.asks(f"than|{_START}|more|fewer") or story.says("than|twice|half"):
        return False
    if any(a.told.partitive for a in made.amounts[1:]):
        return False
    fit = re.fullmatch("[sgdt]lg", letters) is not None
    return fit and all(map(_is_told, made.amounts[1:])) and not _is_of_another(made)


def _is_told(amount: Amount) -> bool:
    """Whether the verb of an amount says for certain that it comes or goes."""
    if (
        amount.told.to
        and amount.told.verb in _GIVING
        and amount.told.to & {"her", "him", "them"} == amount.told.to
    ):
        return False
    return amount.told.verb not in _EITHER and not amount.names & TIMES


_GIVING = word_set("give hand send mail lend pay")
_EITHER = word_set("put place stir pour move hand carry set lay bring take")
