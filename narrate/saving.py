"""Files written beside and then put in place: an old file stays whole until the new one is.

What a process that was killed left beside is thrown away by the next that writes there.
"""

from __future__ import annotations

import os
import platform
import re
import shutil
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO
from zlib import crc32

from narrate.errors import OutputFailed, WrongUse


def save(path: Path, write: Callable[[BinaryIO], None]) -> None:
    """Writes a file whole or not at all.

    Raises OutputFailed, with what the teacher can do, where the folder cannot be written or the
    old file is held open by another program.
    """
    with _room(path):
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=_mark(path), suffix=_PART)
    try:
        with os.fdopen(handle, "wb") as sink:
            write(sink)
        Path(beside).chmod(0o644)
        Path(beside).replace(path)
    except OSError as error:
        raise OutputFailed(_not_replaced(path, error)) from error
    finally:
        Path(beside).unlink(missing_ok=True)


def save_new(path: Path, text: str) -> None:
    """Writes a text to a file that is not there yet. Raises WrongUse where it is."""
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise WrongUse(f"{path} is there already; give the name of a new file") from None
    except OSError as error:
        raise WrongUse(f"{path} cannot be written ({error.strerror}); check its folder") from None


def save_folder(path: Path, write: Callable[[Path], None]) -> None:
    """Writes a folder of files whole or not at all, in the place of one that was there.

    Raises OutputFailed as `save` does.
    """
    with _room(path):
        work = Path(tempfile.mkdtemp(dir=path.parent, prefix=_mark(path), suffix=_PART))
    try:
        new, old = work / "new", work / "old"
        new.mkdir()
        write(new)
        _swap(path, new, old)
    except OSError as error:
        raise OutputFailed(_not_replaced(path, error)) from error
    finally:
        shutil.rmtree(work, ignore_errors=True)


@contextmanager
def meanwhile(job: Callable[[], None]) -> Iterator[None]:
    """Does a job beside what is done inside, where the system can split a process in two.

    What could not be done there is done again here, so that its errors are raised as ever.
    """
    if not hasattr(os, "fork") or threading.active_count() > 1:
        job()
        yield
        return
    process = os.fork()
    if process == 0:
        os._exit(_failed(job))
    try:
        yield
    finally:
        _, status = os.waitpid(process, 0)
    if status:
        job()


def _failed(job: Callable[[], None]) -> int:
    try:
        job()
    except BaseException:
        return 1
    return 0


def _swap(path: Path, new: Path, old: Path) -> None:
    """Puts `new` in the place of `path`; what was there goes to `old`, or back if that fails."""
    if not path.exists():
        new.replace(path)
        return
    path.replace(old)
    try:
        new.replace(path)
    except BaseException:
        old.replace(path)
        raise


@contextmanager
def _room(path: Path) -> Iterator[None]:
    """Makes the folder that `path` lies in, free of what was left there; told in plain words where
    that or more fails."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        _tidy(path.parent)
        yield
    except OSError as error:
        raise OutputFailed(
            f"{path.parent}: cannot be written ({error.strerror}); choose another folder with --to"
        ) from error


# -- what was left


_PART = ".part"
_LEFT = re.compile(r"\.(.+)\.([0-9a-f]{8})-(\d+)\.[^.]+\.part")
_OLD_SECONDS = 24 * 3_600


def _mark(path: Path) -> str:
    """How a name begins that is written beside `path`: it says which process of which machine."""
    return f".{path.name}.{_machine()}-{os.getpid()}."


def _machine() -> str:
    return f"{crc32(platform.node().encode()):08x}"


def _tidy(folder: Path) -> None:
    """Throws away what processes that are no more left in a folder, where that can be.

    An old folder that was moved aside, and nothing put in its place, comes back.
    """
    for left in folder.glob(f".*{_PART}"):
        found = _LEFT.fullmatch(left.name)
        if found is None or not _is_left(left, found[2], int(found[3])):
            continue
        with suppress(OSError):
            aside, place = left / "old", left.with_name(found[1])
            if aside.is_dir() and not place.exists():
                aside.replace(place)
            shutil.rmtree(left) if left.is_dir() else left.unlink(missing_ok=True)


def _is_left(path: Path, machine: str, process: int) -> bool:
    """Whether nobody writes a file any more: its process is no more or, where that cannot be known
    (another machine's, or on Windows), nothing was written for a day."""
    if machine == _machine() and os.name == "posix":
        return not _is_alive(process)
    with suppress(OSError):
        return time.time() - path.stat().st_mtime > _OLD_SECONDS
    return False


def _is_alive(process: int) -> bool:
    try:
        os.kill(process, 0)  # asks, and sends nothing
    except PermissionError:  # somebody else's
        return True
    except (ProcessLookupError, OverflowError):
        return False
    return True


def _not_replaced(path: Path, error: OSError) -> str:
    if isinstance(error, PermissionError):
        return (
            f"{path}: held open by another program, the old file is kept; close it and build again"
        )
    return (
        f"{path}: not written ({error.strerror}), what was there is kept; make room and build again"
    )
