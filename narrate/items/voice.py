"""`voice.yaml`, beside a review: what is the teacher's own. For now her pace, in words a minute."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from narrate.errors import Fault, FaultsFound, OutputFailed, Place
from narrate.items import yaml_nodes
from narrate.items.messages import nearest
from narrate.items.nodes import Keyed, Node, Text, Unreadable, structural_faults

FILE = "voice.yaml"
KEYS = ("pace",)
SLOWEST, FASTEST = 60, 250
_MOST_BYTES = 1_000_000
_NEW = """\
# What is yours, for every review in this folder.
# pace: how fast you speak, in words a minute (60 to 250). narrate fit learns it from a recording.
"""
_SPACED = re.compile(rb"^pace:[ \t]", re.MULTILINE)
_PACE = re.compile(rb"^(pace:[ \t]*)([^\s#]*)", re.MULTILINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """What the file says; None where it says nothing."""

    pace: int | None = None


def voice_beside(review: Path) -> Voice:
    """The voice beside a review file. Raises FaultsFound with the place of each fault."""
    path = review.with_name(FILE)
    try:
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
    except FileNotFoundError:
        return Voice()
    except OSError as error:
        reason = (error.strerror or "").lower()
        raise _found(path, f"this cannot be opened ({reason})", "check its rights") from None
    return _voice(data, path)


def _voice(data: bytes, path: Path) -> Voice:
    if len(data) > _MOST_BYTES:
        raise _found(path, "this file is larger than 1 MB", "keep only what is yours to say in it")
    try:
        root = yaml_nodes.compose(data.decode("utf-8-sig"), str(path))
    except UnicodeDecodeError:
        raise _found(path, "this file is not UTF-8", "save it as UTF-8 (plain text)") from None
    except Unreadable as unreadable:
        raise FaultsFound(unreadable.faults) from None
    if root is None or (isinstance(root, Text) and not root.text):
        return Voice()
    faults = [*structural_faults(root), *_faults(root)]
    if faults:
        raise FaultsFound(tuple(sorted(faults, key=lambda fault: fault.place)))
    assert isinstance(root, Keyed)
    pace = root.get("pace")
    return Voice(pace=int(pace.text) if isinstance(pace, Text) else None)


def _found(path: Path, wrong: str, right: str) -> FaultsFound:
    return FaultsFound((Fault(place=Place(file=str(path)), wrong=wrong, right=right),))


def _faults(root: Node) -> list[Fault]:
    if not isinstance(root, Keyed):
        return [Fault(place=root.place, wrong="this is no set of keys", right="write pace: 140")]
    faults = []
    for key, value in root.entries:
        if key.text not in KEYS:
            near = nearest(key.text, KEYS)
            right = f'did you mean "{near}"?' if near else "known here are " + ", ".join(KEYS)
            wrong = f'unknown key "{key.text[:40]}"'
            faults.append(Fault(place=key.place, wrong=wrong, right=right))
        elif not (isinstance(value, Text) and _is_pace(value.text)):
            shown = f'"{value.text[:40]}"' if isinstance(value, Text) else "no number"
            right = f"write a whole number from {SLOWEST} to {FASTEST}"
            faults.append(Fault(place=value.place, wrong=f'"pace" is {shown}', right=right))
    return faults


def _is_pace(text: str) -> bool:
    digits = text.isascii() and text.isdigit() and len(text) < 4
    return digits and SLOWEST <= int(text) <= FASTEST


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
        if _voice(new, path).pace == pace:
            return new
    except FaultsFound:
        pass
    raise OutputFailed(f"{path}: kept as it is; write the line {line} into it yourself")
