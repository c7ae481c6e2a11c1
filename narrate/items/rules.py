"""Rules that join several keys of an item or a part, read from its nodes.

They run beside the validation of the single keys, so that a file's faults come out all at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from difflib import get_close_matches
from itertools import pairwise
from pathlib import Path
from string import ascii_uppercase
from typing import get_args

from narrate.errors import Fault, Place
from narrate.exact.parser import parse
from narrate.exact.tree import Relation, has_blank
from narrate.items.item import Box
from narrate.items.messages import nearest
from narrate.items.nodes import Keyed, Many, Node, Text
from narrate.items.pictures import read_picture
from narrate.items.schema import Answering, ItemSource, PartSource, keys, split
from narrate.items.telling import told_rules
from narrate.items.texts import (
    Flaw,
    choice_flaw,
    clean,
    flaw,
    mathematics_flaw,
    shorten,
    unread_sort,
)

BOXES: tuple[tuple[Box, ...], ...] = (
    ("number",),
    ("numerator", "denominator"),
    ("whole", "numerator", "denominator"),
)
_BOX_NAMES: tuple[str, ...] = get_args(Box)
_INSIDE_BRACES = (
    "put a choice that holds a comma in quotes",
    "put a space after the colon: A: 1/2",
)
_BOXES_ARE = "write [number], [numerator, denominator] or [whole, numerator, denominator]"


def item_rules(item: Keyed) -> Iterator[Fault]:
    """The faults of an item's keys taken together, and those of its parts."""
    yield from _empty_stimulus(item)
    parts = item.get("parts")
    if parts is None:
        yield from _stem_is_there(item)
        yield from _answered(item, keys(ItemSource), "item")
        return
    yield from _beside_parts(item)
    if isinstance(parts, Many):
        yield from _each_part(parts)


def _each_part(parts: Many) -> Iterator[Fault]:
    if not parts.entries:
        yield _fault(parts, '"parts" is an empty list', "write - ask: with the first question")
    for part in parts.entries:
        if isinstance(part, Keyed):
            yield from _answered(part, keys(PartSource), "part")


def _fault(node: Node, wrong: str, right: str) -> Fault:
    return Fault(place=node.place, wrong=wrong, right=right)


def _misspelt(owner: Keyed, known: Sequence[str]) -> set[str | None]:
    """The keys that unknown keys most likely stand for: they are not missing, but misspelt."""
    return {nearest(key.text, known) for key, _ in owner.entries if key.text not in known}


def _stem_is_there(item: Keyed) -> Iterator[Fault]:
    if item.get("stem") is None and "stem" not in _misspelt(item, keys(ItemSource)):
        yield _fault(item, 'the item has no "stem"', "add stem: with the words of the question")


def _empty_stimulus(item: Keyed) -> Iterator[Fault]:
    match item.get("stimulus"):
        case Keyed(entries=()) as stimulus:
            yield _fault(stimulus, '"stimulus" is empty', "write text:, diagram: or image: in it")
        case Keyed() as stimulus:
            yield from _picture(stimulus)
        case _:
            pass


def _picture(stimulus: Keyed) -> Iterator[Fault]:
    """The faults of a picture and of the words that stand for it."""
    image, alt = stimulus.get("image"), stimulus.get("alt")
    if image is None:
        if (key := stimulus.key("alt")) and "image" not in _misspelt(stimulus, ("image", "alt")):
            yield _fault(key, '"alt" needs an image', "add image: with the picture's file")
        return
    if alt is None and "alt" not in _misspelt(stimulus, ("image", "alt")):
        yield _fault(
            image,
            '"image" has no "alt"',
            "add alt: with what the picture shows, in words, for those who cannot see it",
        )
    if isinstance(image, Text) and image.text.strip():
        found = read_picture(Path(image.place.file).parent, image.text.strip(), "")
        if isinstance(found, Flaw):
            yield _fault(image, found.wrong, found.right)


def _beside_parts(item: Keyed) -> Iterator[Fault]:
    for key, _ in item.entries:
        if key.text in keys(Answering) and key.text not in ("note", "source"):
            yield _fault(key, f'"{key.text}" stands beside parts', "move it into its part")


def _answered(owner: Keyed, known: Sequence[str], what: str) -> Iterator[Fault]:
    """The faults of how one question is answered; `what` is item or part."""
    choices, boxes = owner.get("choices"), owner.get("boxes")
    if choices is not None and boxes is not None:
        later = max((choices, boxes), key=lambda node: node.place)
        yield _fault(later, "there are both boxes and choices", "keep one of the two")
    told = owner.get("told")
    if choices is None and boxes is None and owner.get("claim") is None and told is None:
        yield from _unanswered(owner, known, what)
    if choices is not None:
        keyed = owner.get("key") is not None or told is not None
        yield from _choices(choices, keyed=keyed)
        yield from _same_text(lettered(choices), owner)
    if boxes is not None:
        yield from _boxes(boxes, owner)
    yield from _key(owner)
    yield from _claim(owner)
    yield from _counts(owner)
    if told is not None:
        yield from told_rules(told, owner)


def _unanswered(owner: Keyed, known: Sequence[str], what: str) -> Iterator[Fault]:
    if not {"choices", "boxes", "claim"} & _misspelt(owner, known):
        yield _fault(
            owner,
            f"the {what} has neither choices nor boxes",
            "add choices: {A: 1/2, B: 3/4} or boxes: [numerator, denominator]",
        )


def lettered(choices: Node) -> list[tuple[str, Place, Node]]:
    """Each choice's letter, its place, and the choice; a list's entries get A, B, C and so on."""
    match choices:
        case Keyed(entries=pairs):
            return [(key.text, key.place, node) for key, node in pairs]
        case Many(entries=entries):
            named = zip(ascii_uppercase, entries, strict=False)
            return [(letter, node.place, node) for letter, node in named]
        case _:
            return []


def _choices(choices: Node, *, keyed: bool) -> Iterator[Fault]:
    if not isinstance(choices, Keyed | Many):
        return
    count = len(choices.entries)
    if count < 2:
        found = "only one choice" if count else "no choices"
        yield _fault(choices, f"there is {found}".replace("is no ", "are no "), "give at least two")
    if isinstance(choices, Many) and count > 26:
        yield _fault(choices, f"there are {count} choices", "give at most 26, one for each letter")
    yield from _letters(choices)
    if not keyed:
        yield from _unread(lettered(choices))
    yield from _told_once(
        (a, f) for a, _, node in lettered(choices) for f in _choice(node, keyed=keyed)
    )


def _told_once(faults: Iterable[tuple[str, Fault]]) -> Iterator[Fault]:
    """The faults of choices; those that are words where no key is declared are told as one."""
    words: list[tuple[str, Fault]] = []
    for letter, fault in faults:
        if fault.wrong.startswith("choice "):
            words.append((letter, fault))
        else:
            yield fault
    if len(words) > 1:
        first = words[0][1]
        said = first.wrong.removeprefix("choice ").removesuffix(" is no number or expression")
        letters = ", ".join(letter for letter, _ in words)
        wrong = f"choices {letters} are no numbers or expressions, such as {said}"
        yield replace(first, wrong=wrong)
    else:
        yield from (fault for _, fault in words)


def _letters(choices: Node) -> Iterator[Fault]:
    for letter, place, node in lettered(choices):
        if letter in tuple(ascii_uppercase):
            continue
        wrong = f'"{shorten(letter)}" is no single capital letter'
        right = "use A, B, C and so on"
        if isinstance(node, Text) and not node.text:  # what a slip inside { } leaves behind
            right = _INSIDE_BRACES[":" in letter]
        yield Fault(place=place, wrong=wrong, right=right)


def _same_text(choices: Sequence[tuple[str, Place, Node]], owner: Keyed) -> Iterator[Fault]:
    """Two choices of one text, where one of them is right; two that are wrong are only noted."""
    key, every = owner.get("key"), owner.get("select") is not None
    right = {named.text for named in entries(key)} if key is not None else set()
    first: dict[str, str] = {}
    for letter, _, node in choices:
        if not isinstance(node, Text) or not node.text.strip():
            continue
        other = first.setdefault(clean(node.text), letter)
        if other != letter and (every or right & {other, letter}):
            wrong = f"choices {other} and {letter} are the same"
            yield _fault(node, wrong, "make every choice different")


def _unread(choices: Sequence[tuple[str, Place, Node]]) -> Iterator[Fault]:
    """One fault for all choices that are times of day, and one for all that are lists."""
    sorts: dict[str, list[tuple[str, Node]]] = {}
    for letter, _, node in choices:
        if isinstance(node, Text) and (sort := _sort(node)):
            sorts.setdefault(sort, []).append((letter, node))
    for sort, alike in sorts.items():
        letters = ", ".join(letter for letter, _ in alike)
        several = f"choices {letters} are {sort}" if len(alike) > 1 else f"choice {letters}: {sort}"
        wrong = f"{several}, which are not read"
        yield _fault(alike[0][1], wrong, "declare the right one with key: and tell it with told:")


def _sort(node: Text) -> str:
    """Of which sort that is not read a choice is, "" where it is read as a number."""
    text = clean(node.text)
    return unread_sort(text) if choice_flaw(text, keyed=False) else ""


def _choice(node: Node, *, keyed: bool) -> Iterator[Fault]:
    if not isinstance(node, Text) or not node.text.strip() or flaw(node.text) or _sort(node):
        return  # told with the single keys, or with the others of its sort
    if found := choice_flaw(node.text, keyed=keyed):
        yield Fault(place=node.at(found.offset), wrong=found.wrong, right=found.right)


def entries(node: Node) -> list[Text]:
    """The texts of a list, or of one text parted by commas (all at that text's place)."""
    match node:
        case Text(place=place, text=text):
            return [Text(place=place, text=entry) for entry in split(text)]
        case Many(entries=given):
            return [entry for entry in given if isinstance(entry, Text)]
        case _:
            return []


def read_boxes(names: Sequence[str]) -> tuple[tuple[Box, ...], str]:
    """The boxes and the unit printed after them ("" where none); no boxes where they do not fit."""
    for boxes in BOXES:
        if tuple(names) == boxes:
            return boxes, ""
        if tuple(names[:-1]) == boxes and names[-1] not in _BOX_NAMES:
            return boxes, names[-1]
    return (), ""


def _boxes(node: Node, owner: Keyed) -> Iterator[Fault]:
    names = entries(node)
    unknown = [name for name in names if name.text not in _BOX_NAMES]
    slips = [name for name in unknown if _box_slip(name, last=name is names[-1])]
    for name in slips:
        near = get_close_matches(name.text.lower(), _BOX_NAMES, n=1, cutoff=0.75)
        right = f'did you mean "{near[0]}"?' if near else _BOXES_ARE
        yield _fault(name, f'unknown box "{shorten(name.text)}"', right)
    boxes, unit = read_boxes([name.text for name in names])
    if not boxes and not slips and isinstance(node, Text | Many):
        listed = ", ".join(name.text for name in names)
        wrong = f"these boxes do not go together: {shorten(listed)}" if listed else "no boxes"
        yield _fault(node, wrong, _BOXES_ARE)
    if unit and (other := owner.get("unit")):
        yield _fault(other, "the unit is given twice", "keep it in boxes or in unit, not in both")


def _box_slip(name: Text, *, last: bool) -> bool:
    return not last or bool(get_close_matches(name.text.lower(), _BOX_NAMES, n=1, cutoff=0.75))


def _key(owner: Keyed) -> Iterator[Fault]:
    key, choices = owner.get("key"), owner.get("choices")
    select_all = owner.get("select") is not None
    if choices is None:
        for name in ("key", "select"):
            if found := owner.key(name):
                yield _fault(found, f'"{name}" needs choices', f"add choices, or leave {name} out")
        return
    if key is None:
        return
    named = entries(key)
    known = [letter for letter, _, _ in lettered(choices)]
    if not named and isinstance(key, Text | Many):
        yield _fault(key, '"key" is empty', "write the letter of a choice, or leave key out")
    if len(named) > 1 and not select_all:
        yield _fault(key, "the key names several choices", "name one, or add select: all")
    yield from _no_choice(named, known)
    yield from _named_twice(named)


def _no_choice(
    named: Sequence[Text], known: Sequence[str], where: str = "the key "
) -> Iterator[Fault]:
    for letter in named if known else ():  # what is wrong with the choices has been told
        if letter.text not in known:
            wrong = f'{where}"{shorten(letter.text)}" is no choice'
            yield _fault(letter, wrong, f"name one of {', '.join(known)}")


def _named_twice(named: Sequence[Text]) -> Iterator[Fault]:
    for one, other in pairwise(sorted(named, key=lambda entry: entry.text)):
        if one.text == other.text:
            yield _fault(other, f"the key names {shorten(other.text)} twice", "name it once")


def _counts(owner: Keyed) -> Iterator[Fault]:
    counts, choices = owner.get("counts"), owner.get("choices")
    if not isinstance(counts, Keyed):
        return
    if choices is None:
        yield _fault(counts, '"counts" needs choices', "add choices, or leave counts out")
    known = [letter for letter, _, _ in lettered(choices)] if choices is not None else []
    yield from _no_choice([key for key, _ in counts.entries], known, "counts: ")


def _claim(owner: Keyed) -> Iterator[Fault]:
    node = owner.get("claim")
    if not isinstance(node, Text) or mathematics_flaw(node.text):
        return  # told with the single keys
    claim, right = parse(node.text), "write the pupil's answer alone, such as 3/7"
    if isinstance(claim, Relation):
        yield _fault(node, '"claim" is an equation', right)
    elif has_blank(claim):
        yield _fault(node, '"claim" has an empty box', right)
