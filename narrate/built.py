"""A lesson as it was built, kept beside its files, so that `catch-up` takes its parts from there.

`lesson.built` holds words, pages and times; what each item was; and where her recording lies that
it was fitted to. It is written whole, and read only where it is whole.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from hashlib import file_digest, sha256
from pathlib import Path, PurePath
from typing import Any, BinaryIO

from narrate.errors import WrongUse
from narrate.items.edits import edits_beside, read_edits
from narrate.items.fingerprint import fingerprints
from narrate.items.item import Review
from narrate.lesson import kept
from narrate.lesson.lesson import Lesson, Timeline
from narrate.saving import save

FILE = "lesson.built"


@dataclass(frozen=True, slots=True, kw_only=True)
class Recording:
    """Her voice on the times of a lesson, and the SHA-256 of the file as it was then."""

    path: Path
    digest: str

    def check(self, folder: Path) -> None:
        """Raises WrongUse where it is no longer there, or is another than that of the folder."""
        try:
            same = _digest(self.path) == self.digest
        except OSError as error:
            reason = (error.strerror or str(error)).lower()
            wrong, right = f"cannot be opened ({reason})", "put it back"
        else:
            if same:
                return
            wrong, right = "has been changed since then", "fit that review again"
        raise WrongUse(
            f"{self.path}, your recording that {folder} was fitted to, {wrong}; {right}, or let a"
            " voice speak in its place (--spoken-by); nothing was written"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A lesson as it was built: its times, the fingerprints of the items it was made of, by their
    ids; the pace it was built at, in words a minute, None where that was to be learnt from her
    recording; whether it was fitted to times that were recorded; and the recording, if that was
    given."""

    lesson: Lesson
    timeline: Timeline
    items: Mapping[str, str]
    wpm: int | None
    fitted: bool
    recording: Recording | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A lesson that is being built, whole, of what it was made and where she is heard."""

    lesson: Lesson
    items: Mapping[str, str]
    wpm: int | None
    fitted: bool = False
    recording: Recording | None = None

    def keep(self, folder: Path, timeline: Timeline) -> Path:
        """Writes it with its times to a folder. Raises OutputFailed."""
        told = kept.dump(self.lesson, timeline)
        head = {
            "form": kept.FORM,
            "sha256": sha256(told).hexdigest(),
            "items": dict(self.items),
            "wpm": self.wpm,
            "fitted": self.fitted,
            "recording": self.recording and _written(self.recording, folder),
        }
        data = json.dumps(head, ensure_ascii=False).encode() + b"\n" + told
        save(folder / FILE, partial(_put, data))
        return folder / FILE


def told(lesson: Lesson, review: Review, wpm: int | None) -> Told:
    """A lesson with what it was made of: a review as it stands in its file, and her edits."""
    items = fingerprints(review, read_edits(edits_beside(review.file)))
    return Told(lesson=lesson, items=items, wpm=wpm)


def told_fitted(lesson: Lesson, review: Review, recording: Recording | None) -> Told:
    """The same of a lesson that was fitted; her pace is learnt from her recording."""
    return replace(told(lesson, review, None), fitted=True, recording=recording)


def recording_at(path: Path) -> Recording:
    """Her recording as it is now. Raises WrongUse where it cannot be read."""
    try:
        return Recording(path=path, digest=_digest(path))
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        wrong = f"{path} is no recording that can be read ({reason})"
        raise WrongUse(f"{wrong}; give a wav, mp3 or m4a") from None


def find(folder: Path, note: Callable[[str], None]) -> Built | None:
    """The lesson that was built in a folder, None where there is none.

    A note says why one that is there cannot be used.
    """
    if not (folder / "lesson.json").is_file():
        return None
    again = "is told anew, as it is today; build it again, or fit it again if it was fitted"
    try:
        head, _, rest = (folder / FILE).read_bytes().partition(b"\n")
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        note(f"{folder / FILE} cannot be opened ({reason}): {folder.name} {again}")
        return None
    try:
        return _read(json.loads(head), rest, folder)
    except _OtherForm:
        note(f"{folder / FILE} is of another version of narrate: {folder.name} {again}")
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        note(f"{folder / FILE} is damaged: {folder.name} {again}")
    return None


def forgotten(folder: Path) -> str:
    """What a build tells of her recording, which the lesson of a folder was fitted to; "" where
    there is none: times are predicted again, and she is not heard."""
    path = _fitted_to(folder)
    if path is None:
        return ""
    return (
        f"{folder}: was fitted to {path}, and now has predicted times, without your voice; narrate"
        f" fit with --times {folder / 'times.csv'} --sound {path} brings both back"
    )


def _fitted_to(folder: Path) -> Path | None:
    """Her recording that the lesson of a folder was fitted to, by the first line of its file alone:
    a build waits for it. None where there is none, or it cannot be read."""
    if not (folder / "lesson.json").is_file():
        return None
    try:
        with (folder / FILE).open("rb") as file:
            voice = json.loads(file.readline())["recording"]
        return _found(voice["path"], folder) if voice else None
    except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None


class _OtherForm(Exception):
    """The file is whole, but lessons are made of other things now."""


def _read(head: dict[str, Any], rest: bytes, folder: Path) -> Built:
    if sha256(rest).hexdigest() != head["sha256"]:
        raise ValueError("not what was written")
    if head["form"] != kept.FORM:
        raise _OtherForm
    lesson, timeline = kept.load(rest)
    voice = head["recording"]
    return Built(
        lesson=lesson,
        timeline=timeline,
        items=head["items"],
        wpm=head["wpm"],
        fitted=bool(head.get("fitted", voice)),
        recording=voice and Recording(path=_found(voice["path"], folder), digest=voice["sha256"]),
    )


def _written(recording: Recording, folder: Path) -> dict[str, str]:
    """A recording as it is named in the folder's file: as it lies from there, so that both may be
    moved together; on another drive in full."""
    try:
        path = os.path.relpath(recording.path, folder)
    except ValueError:
        path = str(recording.path.resolve())
    return {"path": PurePath(path).as_posix(), "sha256": recording.digest}


def _found(path: str, folder: Path) -> Path:
    return Path(os.path.normpath(folder / path))


def _digest(path: Path) -> str:
    with path.open("rb") as file:
        return file_digest(file, "sha256").hexdigest()


def _put(data: bytes, sink: BinaryIO) -> None:
    sink.write(data)
