"""How the teacher speaks, from `voice.yaml` beside her reviews or the file that `--voice` names."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from narrate.errors import Fault, FaultsFound, OutputFailed
from narrate.items.messages import nearest
from narrate.items.nodes import Keyed, Many, Node, Refused, Text, structural_faults
from narrate.items.sidefile import VOICE, fault, keys_of, read_keys, shown, text_faults
from narrate.items.texts import clean, shorten

FILE = VOICE
SLOWEST, FASTEST = 60, 250
"""Words a minute that a pace may have, as `--wpm`."""

LONGEST_WORD = 60
LONGEST_NAME = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class Phrase:
    """A wording of hers for a move, as in our templates. `move` is as the template is named."""

    move: Text
    texts: tuple[Text, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """What a teacher says her own way; "" or nothing where she says it as we do.

    `pace` is in words a minute. `avoid` are words that are not said, `known` terms that are not
    explained; both keep their places in the file.
    """

    pace: int | None = None
    greeting: str = ""
    closing: str = ""
    pupils: str = ""
    video: str = ""
    phrases: tuple[Phrase, ...] = ()
    avoid: tuple[Text, ...] = ()
    known: tuple[Text, ...] = ()
    quarters: bool = False


NO_VOICE = Voice()
"""A teacher who has said nothing about how she speaks."""


def voice_beside(review: Path) -> Voice:
    """The voice beside a review file, none where there is no file. Raises FaultsFound."""
    path = review.with_name(FILE)
    return read_voice(path) if path.exists() else NO_VOICE


def read_voice(path: Path) -> Voice:
    """The voice in a file. Raises FaultsFound with all its faults, also where there is no file."""
    return _voice(read_keys(path, "write pace: 140"))


def _voice(root: Keyed) -> Voice:
    """The voice of a file's keys. Raises FaultsFound."""
    wrong = (found for key, node in root.entries for found in _faults(key, node))
    faults = [*structural_faults(root), *wrong]
    if faults:
        raise FaultsFound(tuple(sorted(faults, key=lambda each: each.place)))
    phrases = root.get("phrases")
    pace = root.get("pace")
    return Voice(
        pace=int(pace.text) if isinstance(pace, Text) else None,
        greeting=_text(root, "greeting"),
        closing=_text(root, "closing"),
        pupils=_text(root, "class"),
        video=_text(root, "video"),
        phrases=tuple(_phrases(phrases)) if isinstance(phrases, Keyed) else (),
        avoid=_texts(root.get("avoid")),
        known=_texts(root.get("known")),
        quarters=_text(root, "quarters") == "true",
    )


def _text(root: Keyed, name: str) -> str:
    node = root.get(name)
    return clean(node.text) if isinstance(node, Text) else ""


def _texts(node: Node | None) -> tuple[Text, ...]:
    """The texts of a list, or the one text."""
    if isinstance(node, Text):
        return (node,)
    return tuple(e for e in node.entries if isinstance(e, Text)) if isinstance(node, Many) else ()


def _phrases(node: Keyed) -> Iterator[Phrase]:
    for key, value in node.entries:
        yield Phrase(move=key, texts=_texts(value))


# -- what may be wrong


def _faults(key: Text, node: Node) -> Iterator[Fault]:
    if key.text not in _CHECKS:
        near = nearest(key.text, _CHECKS)
        right = f'did you mean "{near}"?' if near else f"known here are {', '.join(_CHECKS)}"
        yield fault(key, f'unknown key "{shorten(key.text)}"', right)
    elif not isinstance(node, Refused):  # which has told its own reason
        yield from _CHECKS[key.text](key, node)


def _sentences(key: Text, node: Node) -> Iterator[Fault]:
    yield from text_faults(key.text, node)


def _name(key: Text, node: Node) -> Iterator[Fault]:
    yield from text_faults(key.text, node, LONGEST_NAME)


def _words(key: Text, node: Node) -> Iterator[Fault]:
    if isinstance(node, Keyed) or (isinstance(node, Many) and not node.entries):
        yield fault(node, f'"{key.text}" is no list of words', "write them as [one, another]")
        return
    for each in node.entries if isinstance(node, Many) else (node,):
        yield from text_faults(key.text, each, LONGEST_WORD)


def _moves(key: Text, node: Node) -> Iterator[Fault]:
    if not isinstance(node, Keyed):
        yield fault(node, f'"{key.text}" is {shown(node)}', "write a move and below it your words")
        return
    for move, value in node.entries:
        if isinstance(value, Many) and value.entries:
            for each in value.entries:
                yield from text_faults(move.text, each)
        else:
            yield from text_faults(move.text, value)


def _truth(key: Text, node: Node) -> Iterator[Fault]:
    if not isinstance(node, Text) or node.text not in ("true", "false"):
        yield fault(node, f'"{key.text}" is {shown(node)}', "write true or false")


def _pace(key: Text, node: Node) -> Iterator[Fault]:
    good = isinstance(node, Text) and node.text.isascii() and node.text.isdigit()
    if not good or not SLOWEST <= int(_first_digits(node)) <= FASTEST:
        right = f"write a whole number from {SLOWEST} to {FASTEST}"
        what = shown(node) if isinstance(node, Text) else "no number"
        yield fault(node, f'"{key.text}" is {what}', right)


def _first_digits(node: Node) -> str:
    return node.text[:9] if isinstance(node, Text) else "0"


def _nothing(key: Text, node: Node) -> Iterator[Fault]:
    yield from ()


_CHECKS: dict[str, Callable[[Text, Node], Iterator[Fault]]] = {
    "pace": _pace,
    "greeting": _sentences,
    "closing": _sentences,
    "class": _name,
    "video": _name,
    "phrases": _moves,
    "avoid": _words,
    "quarters": _truth,
    "known": _words,
    "note": _nothing,
}
"""The keys there are, with what checks their values."""


# -- her pace, saved

_NEW = """\
# What is yours, for every review in this folder.
# pace: how fast you speak, in words a minute (60 to 250). narrate fit learns it from a recording.
"""
_SPACED = re.compile(rb"^pace:[ \t]", re.MULTILINE)
_PACE = re.compile(rb"^(pace:[ \t]*)([^\s#]*)", re.MULTILINE)


def with_pace(data: bytes | None, pace: int, path: Path) -> bytes:
    """The file's bytes with this pace: one line changed or added, all else byte for byte.

    `data` is None where there is no file. Raises OutputFailed where that cannot be done safely.
    """
    line = f"pace: {pace}"
    if data is None:
        return f"{_NEW}{line}\n".encode()
    end = b"\r\n" if b"\r\n" in data else b"\n"
    if _PACE.search(data):
        spaced = b"\\g<1>%d" % pace
        new = _PACE.sub(spaced if _SPACED.search(data) else line.encode(), data, count=1)
    else:
        open_line = data and not data.endswith((b"\n", b"\r"))
        new = data + (end if open_line else b"") + line.encode() + end
    try:
        if _voice(keys_of(new, path)).pace == pace:
            return new
    except FaultsFound:
        pass
    raise OutputFailed(f"{path}: kept as it is; write the line {line} into it yourself")
