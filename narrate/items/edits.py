"""What the teacher changes of single beats, from the file `<review>.edits.yaml` beside the review.

Each key at the top is a beat's id; below it stand `was:` (what the beat said when she changed it),
`say:`, `show:` and `wait:`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from narrate.errors import Fault, FaultsFound, Place
from narrate.items.messages import nearest
from narrate.items.nodes import Keyed, Node, Text, structural_faults
from narrate.items.sidefile import EDITS, SECONDS, fault, read_keys, seconds, text_faults
from narrate.items.texts import clean, shorten

KEYS = ("was", "say", "show", "wait")


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One beat changed. `was` is "" where it is not given; `wait_ms` is None where it is as it was.

    `say` and `show` keep their places in the file.
    """

    beat: str
    place: Place
    was: str = ""
    say: Text | None = None
    show: Text | None = None
    wait_ms: int | None = None


def edits_beside(review: Path) -> Path:
    """Where the edits of a review's file are kept."""
    return review.with_name(review.stem + EDITS)


def read_edits(path: Path) -> tuple[Edit, ...]:
    """The edits of a file, none where there is no file. Raises FaultsFound with all its faults."""
    if not path.exists():
        return ()
    root = read_keys(path)
    wrong = (found for key, node in root.entries for found in _faults(key, node))
    faults = [*structural_faults(root), *wrong]
    if faults:
        raise FaultsFound(tuple(sorted(faults, key=lambda each: each.place)))
    return tuple(_edit(key, node) for key, node in root.entries if isinstance(node, Keyed))


def _faults(beat: Text, node: Node) -> Iterator[Fault]:
    if not isinstance(node, Keyed) or not node.entries:
        wrong = f'"{shorten(beat.text)}" changes nothing'
        yield fault(beat, wrong, "write say:, show: or wait: below it")
        return
    for key, found in node.entries:
        if key.text not in KEYS:
            near = nearest(key.text, KEYS)
            right = f'did you mean "{near}"?' if near else f"known here are {', '.join(KEYS)}"
            yield fault(key, f'unknown key "{shorten(key.text)}"', right)
        elif key.text == "wait":
            if seconds(found) is None:
                yield fault(found, '"wait" is no number of seconds', SECONDS)
        else:
            yield from text_faults(key.text, found)
    if node.get("say") is not None and node.get("was") is None:
        right = "add was: with what the beat says now, so that a later change is noticed"
        yield fault(beat, f'"{shorten(beat.text)}" has say: but no was:', right)


def _edit(beat: Text, node: Keyed) -> Edit:
    say, show, was = (node.get(name) for name in ("say", "show", "was"))
    return Edit(
        beat=beat.text,
        place=beat.place,
        was=clean(was.text) if isinstance(was, Text) else "",
        say=say if isinstance(say, Text) else None,
        show=show if isinstance(show, Text) else None,
        wait_ms=seconds(node.get("wait")),
    )
