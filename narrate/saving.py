"""Files written beside and then put in place: an old file stays whole until the new one is."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO

from narrate.errors import OutputFailed


def save(path: Path, write: Callable[[BinaryIO], None]) -> None:
    """Writes a file whole or not at all.

    Raises OutputFailed, with what the teacher can do, where the folder cannot be written or the
    old file is held open by another program.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    except OSError as error:
        raise OutputFailed(
            f"{path.parent}: cannot be written ({error.strerror}); choose another folder with --to"
        ) from error
    try:
        with os.fdopen(handle, "wb") as sink:
            write(sink)
        Path(beside).chmod(0o644)
        Path(beside).replace(path)
    except OSError as error:
        raise OutputFailed(_not_replaced(path, error)) from error
    finally:
        Path(beside).unlink(missing_ok=True)


def _not_replaced(path: Path, error: OSError) -> str:
    if isinstance(error, PermissionError):
        return (
            f"{path}: held open by another program, the old file is kept; close it and build again"
        )
    return (
        f"{path}: not written ({error.strerror}), what was there is kept; make room and build again"
    )
