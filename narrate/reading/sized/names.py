"""Who and what a story speaks of, known again by name, by pronoun, or as "the other one"."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from narrate.reading.words import lexicon
from narrate.reading.words.lexicon import one
from narrate.reading.words.plain import word_set
from narrate.reading.words.whom import PEOPLE

_WOMEN = word_set(
    "sister mother mom aunt grandmother grandma daughter niece girl woman wife lady mum"
)
_MEN = word_set("brother father dad uncle grandfather grandpa son nephew boy man husband")
_KIN = (
    _WOMEN
    | _MEN
    | word_set("cousin friend neighbor neighbour teacher twin child pupil student coach")
    | PEOPLE
)
_TITLES = {"mr": "m", "mrs": "f", "ms": "f", "miss": "f"}
_POINTS = word_set("the a an his her my our their its this that your")
_NEVER = (
    (
        lexicon.NO_THING
        - _POINTS
        - word_set("of in on from at near by to next first second third other last little")
    )
    | word_set(
        "is are was were be been being has have had do does did not than as times about who which "
        "and or if both each every all total combined half twice how what "
        "cost costs weigh weighs hold holds"
    )
)  # fmt: skip


_BASES = frozenset(lexicon.VERBS.values())


@dataclass(frozen=True, slots=True)
class Name:
    """The words that name someone or something, `owner` whose it is; `pronoun` stands for all."""

    words: frozenset[str]
    owner: str = ""
    pronoun: str = ""
    definite: bool = False
    head: str = ""
    person: bool | None = None
    sex: str = ""
    owner_sex: str = ""


def named(text: str) -> Name | None:
    """The name that some words are, None where they are none."""
    said = text.split()
    lows = [word.lower() for word in said]
    if len(said) == 1 and lows[0] in lexicon.PRONOUNS - {"his", "hers"}:
        subject = {"him": "he", "her": "she", "them": "they"}.get(lows[0], lows[0])
        return Name(frozenset(), pronoun=subject)
    if not said or any(_is_no_name(said, at) for at in range(len(said))):
        return None
    owner, owner_sex, definite = "", "", False
    kept: list[str] = []
    for word, low in zip(said, lows, strict=True):
        if low.endswith(("'s", "s'")):
            if owner:
                return None
            owner, kept, definite = one(low), [], True
        elif low in _POINTS:
            owner_sex = {"his": "m", "her": "f"}.get(low, owner_sex) if not kept else owner_sex
            definite = definite or low not in ("a", "an", "another")
        elif low not in lexicon.PREPOSITIONS:
            kept.append(one(word))
    if not kept and not owner:
        return None
    heads = re.split(r" (?:of|in|on|from|at|near|by) ", " ".join(lows))[0].split()
    names = all(word[:1].isupper() for word in said)
    people = set(kept) & _KIN
    sexes = {*("f" for w in kept if w in _WOMEN), *("m" for w in kept if w in _MEN)}
    sexes |= {_TITLES[w] for w in kept if w in _TITLES}
    person = (
        True if people or set(kept) & _TITLES.keys() else None if names and not owner else False
    )
    return Name(
        words=frozenset(kept),
        owner=owner,
        definite=definite or names or not set(lows) & {"a", "an", "another"},
        head=one(heads[-1]) if kept else "",
        person=person if kept else None,
        sex=sexes.pop() if len(sexes) == 1 else "",
        owner_sex=owner_sex,
    )


def _is_no_name(said: list[str], at: int) -> bool:
    """Whether a word stands in no name: a verb, a link; "the rose" and "May" are names."""
    word, low = said[at], said[at].lower()
    if low in ("may", "will") and word[:1].isupper():
        return False
    if low == "rose" and (
        word[:1].isupper() or (at and said[at - 1].lower() in _POINTS | lexicon.COLOURS)
    ):
        return False
    before = said[at - 1] if at else ""
    done = before[:1].isupper() and before.isalpha() and before.lower() not in lexicon.NO_THING
    return low in _NEVER or low in lexicon.PAST or (done and word == low and low in _BASES)


@dataclass(slots=True)
class Thing:
    """Someone or something; `points` are its times in order, each a place of the world."""

    words: frozenset[str]
    owner: str
    head: str
    person: bool | None
    sex: str
    points: list[int] = field(default_factory=list)


@dataclass(slots=True)
class Cast:
    """All who were spoken of, and who was last."""

    things: list[Thing] = field(default_factory=list)
    spoken: list[Thing] = field(default_factory=list)

    def meant(self, name: Name, but: Thing | None = None) -> Thing | None:
        """Whom a name means, someone known or new; None where not sure. No pronoun means `but`."""
        if name.pronoun:
            return self._by_pronoun(name.pronoun, but)
        self._learn(name)
        words = name.words - {"one"} if "one" in name.words else name.words
        if words == {"other"} and name.definite:
            return self._other()
        fits = [t for t in self.things if self._fits(t, words, name)]
        exact = [t for t in fits if t.words == words and t.owner == name.owner]
        if len(exact or fits) == 1:
            return (exact or fits)[0]
        if fits:
            return None
        head = name.head
        if ("one" in name.words or not words) and self.things:
            before = self.spoken[-1] if self.spoken else self.things[-1]
            words, head = words | {before.head}, before.head
        if not words:
            return None
        made = Thing(words, name.owner, head, name.person, name.sex)
        self.things.append(made)
        return made

    def _fits(self, thing: Thing, words: frozenset[str], name: Name) -> bool:
        if name.owner and thing.owner and name.owner != thing.owner:
            return False
        if not words:
            return bool(name.owner) and thing.owner == name.owner
        if name.owner and not thing.owner and thing.person is None:
            return False
        return words <= thing.words and (thing.words == words or name.definite)

    def _other(self) -> Thing | None:
        rest = [t for t in self.things if not self.spoken or t is not self.spoken[-1]]
        return rest[0] if len(self.things) == 2 and len(rest) == 1 else None

    def _learn(self, name: Name) -> None:
        """Who has "her brother" is a woman or a girl."""
        people = [t for t in self.things if t.person is not False]
        if name.owner_sex and len(people) == 1 and not people[0].sex:
            people[0].sex = name.owner_sex

    def _by_pronoun(self, pronoun: str, but: Thing | None) -> Thing | None:
        things = [t for t in self.things if t is not but]
        if len(things) == 1:
            return things[0]
        last = next((t for t in reversed(self.spoken) if t is not but), None)
        if pronoun == "it":
            return last if last is not None and last.person is not True else None
        if pronoun == "they":
            return last if last is not None and last.head.endswith("s") else None
        sex = {"he": "m", "she": "f"}.get(pronoun, "")
        people = [t for t in things if t.person is not False]
        if not sex or not people:
            return None
        known = [t for t in people if t.sex == sex]
        open_ = [t for t in people if not t.sex]
        found = known or open_
        return found[0] if len(found) == 1 else None
