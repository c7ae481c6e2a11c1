"""What took long to make, kept in a folder from one build to the next.

A piece is a file named after what it was made of and after what is in it, so that one broken off,
or changed by anybody, is never taken for whole. The folder may be deleted at any time.
"""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Callable
from contextlib import suppress
from hashlib import file_digest
from pathlib import Path
from tempfile import mkstemp

SUFFIX = ".piece"
KEPT_SECONDS = 30 * 24 * 3_600
KEPT_BYTES = 2 * 1024**3
"""Pieces that nobody asked for since so long, or beyond so much, are thrown away."""

_ABANDONED_SECONDS = 24 * 3_600


def kept(folder: Path | None, key: str, made: Callable[[], bytes]) -> bytes:
    """What `key` stands for, found in the folder, or made and kept there where that can be."""
    if folder is not None:
        with suppress(OSError):
            if found := find(folder, key):
                return found.read_bytes()
    data = made()
    if folder is not None:
        with suppress(OSError):
            make(folder, key, lambda path: path.write_bytes(data))
    return data


def find(folder: Path, key: str) -> Path | None:
    """The piece made of what `key` stands for, if it is there and whole; marked as used."""
    for path in sorted(_shelf(folder, key).glob(f"{key}-*{SUFFIX}")):
        if path.name == _name(key, path):
            os.utime(path)
            return path
        path.unlink()
    return None


def make(folder: Path, key: str, write: Callable[[Path], object]) -> Path:
    """Makes a piece, put in its place only when it is whole. Raises OSError."""
    shelf = _shelf(folder, key)
    shelf.mkdir(parents=True, exist_ok=True)
    handle, beside = mkstemp(dir=shelf, suffix=".part")
    os.close(handle)
    try:
        write(Path(beside))
        return Path(beside).replace(shelf / _name(key, Path(beside)))
    finally:
        Path(beside).unlink(missing_ok=True)


def _shelf(folder: Path, key: str) -> Path:
    """Pieces lie in folders by the beginning of their keys: one is soon found among thousands."""
    return folder / key[:2]


def prune(folder: Path) -> None:
    """Throws away what is old or too much, the oldest first, and what a killed build left."""
    now, kept = time.time(), 0
    for used, size, path in sorted(_seen(folder), reverse=True):
        kept += size
        whole = path.suffix == SUFFIX
        if now - used > (KEPT_SECONDS if whole else _ABANDONED_SECONDS) or kept > KEPT_BYTES:
            shutil.rmtree(path) if path.is_dir() else path.unlink(missing_ok=True)


def _seen(folder: Path) -> list[tuple[float, int, Path]]:
    return [
        (found.st_mtime, found.st_size, path)
        for path in folder.glob("**/*")
        if path.suffix in (SUFFIX, ".part") and (found := path.stat())
    ]


def _name(key: str, path: Path) -> str:
    with path.open("rb") as file:
        return f"{key}-{file_digest(file, 'sha256').hexdigest()[:32]}{SUFFIX}"
