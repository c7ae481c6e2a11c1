"""Files and folders are written whole or not at all (own contract: DEVELOPERS.md)."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import BinaryIO

import pytest

from narrate.errors import OutputFailed
from narrate.saving import meanwhile, save, save_folder


def contents(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def fill(*names: str) -> Callable[[Path], None]:
    def write(folder: Path) -> None:
        for name in names:
            (folder / name).write_text(name)

    return write


def slides(sink: BinaryIO) -> None:
    sink.write(b"slides")


class TestFolder:
    def test_it_takes_the_place_of_the_old_one(self, tmp_path: Path) -> None:
        place = tmp_path / "deep" / "pictures"
        save_folder(place, fill("a", "b"))
        save_folder(place, fill("b", "c"))
        assert contents(tmp_path) == {"deep/pictures/b": b"b", "deep/pictures/c": b"c"}

    @pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
    def test_the_old_one_stays_where_writing_breaks_off(
        self, tmp_path: Path, error: BaseException
    ) -> None:
        place = tmp_path / "pictures"
        save_folder(place, fill("a"))

        def break_off(folder: Path) -> None:
            (folder / "half").write_text("half")
            raise error

        with pytest.raises((OutputFailed, KeyboardInterrupt)):
            save_folder(place, break_off)
        assert contents(tmp_path) == {"pictures/a": b"a"}

    def test_the_old_one_comes_back_where_the_new_cannot_take_its_place(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """As where another program holds it open."""
        place = tmp_path / "pictures"
        save_folder(place, fill("a"))
        replace = Path.replace

        def held(self: Path, target: Path) -> Path:
            if self.name == "new":
                raise PermissionError(13, "Permission denied")
            return replace(self, target)

        monkeypatch.setattr(Path, "replace", held)
        with pytest.raises(OutputFailed, match="held open by another program"):
            save_folder(place, fill("b"))
        assert contents(tmp_path) == {"pictures/a": b"a"}

    def test_a_place_that_cannot_be_made(self, tmp_path: Path) -> None:
        (tmp_path / "taken").write_text("a file")
        with pytest.raises(OutputFailed, match="choose another folder with --to"):
            save_folder(tmp_path / "taken" / "pictures", fill("a"))


KILLED = """
import os, signal, sys
from pathlib import Path
from narrate import saving

def die(*_):
    os.kill(os.getpid(), signal.SIGKILL)

def half(sink):
    sink.write(b"half a video")
    sink.flush()
    die()

def aside(folder):
    (folder / "new").write_text("new")

path = Path(sys.argv[2])
if sys.argv[1] == "file":
    saving.save(path, half)
elif sys.argv[1] == "folder":
    saving.save_folder(path, lambda folder: ((folder / "half").write_text("half"), die()))
else:
    replace = Path.replace
    Path.replace = lambda self, to: die() if self.name == "new" else replace(self, to)
    saving.save_folder(path, aside)
"""


def killed(what: str, path: Path) -> None:
    """A process that writes `path` and is killed outright in the middle."""
    ended = subprocess.run([sys.executable, "-c", KILLED, what, str(path)], check=False)
    assert ended.returncode == -signal.SIGKILL


def beside(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir() if path.name.startswith(".")]


@pytest.mark.skipif(os.name != "posix", reason="kills a process outright")
class TestWhatWasLeft:
    """What a process that was killed left beside is thrown away by the next that writes there."""

    def test_half_a_file(self, tmp_path: Path) -> None:
        save(tmp_path / "video.mp4", slides)
        killed("file", tmp_path / "video.mp4")
        assert len(beside(tmp_path)) == 1
        assert (tmp_path / "video.mp4").read_bytes() == b"slides"
        save(tmp_path / "deck.pptx", slides)  # another file: a build without a video
        assert contents(tmp_path) == {"video.mp4": b"slides", "deck.pptx": b"slides"}

    def test_half_a_folder(self, tmp_path: Path) -> None:
        save_folder(tmp_path / "pictures", fill("a"))
        killed("folder", tmp_path / "pictures")
        assert len(beside(tmp_path)) == 1
        save(tmp_path / "deck.pptx", slides)
        assert contents(tmp_path) == {"pictures/a": b"a", "deck.pptx": b"slides"}

    def test_an_old_folder_moved_aside_comes_back(self, tmp_path: Path) -> None:
        save_folder(tmp_path / "pictures", fill("a"))
        killed("moment between", tmp_path / "pictures")
        assert not (tmp_path / "pictures").exists()
        save(tmp_path / "deck.pptx", slides)
        assert contents(tmp_path) == {"pictures/a": b"a", "deck.pptx": b"slides"}

    def test_what_another_process_is_writing_stays(self, tmp_path: Path) -> None:
        def slow(sink: BinaryIO) -> None:
            sink.write(b"slides")
            save(tmp_path / "other", slides)  # while this one is being written

        save(tmp_path / "deck.pptx", slow)
        assert contents(tmp_path) == {"deck.pptx": b"slides", "other": b"slides"}

    def test_what_another_machine_left_goes_after_a_day(self, tmp_path: Path) -> None:
        left = tmp_path / f".video.mp4.00000000-{os.getpid()}.abc.part"
        left.write_bytes(b"half")
        save(tmp_path / "deck.pptx", slides)
        assert left.exists()
        os.utime(left, (time.time() - 90_000,) * 2)
        save(tmp_path / "deck.pptx", slides)
        assert contents(tmp_path) == {"deck.pptx": b"slides"}

    def test_files_of_hers_stay(self, tmp_path: Path) -> None:
        for name in (".my.part", ".a.b.c.part", "film.00000000-1.x.part"):
            (tmp_path / name).write_bytes(b"hers")
            os.utime(tmp_path / name, (0, 0))
        save(tmp_path / "deck.pptx", slides)
        assert len(contents(tmp_path)) == 4


class TestMeanwhile:
    def test_the_job_is_done_when_the_body_is(self, tmp_path: Path) -> None:
        path = tmp_path / "deck"
        with meanwhile(partial(save, path, slides)):
            (tmp_path / "script").write_text("words")
        assert path.read_bytes() == b"slides"

    def test_what_fails_is_raised_here(self, tmp_path: Path) -> None:
        def job() -> None:
            raise OutputFailed("no room")

        done = []
        with pytest.raises(OutputFailed, match="no room"), meanwhile(job):
            done.append("the rest")
        assert done == ["the rest"]

    def test_what_the_body_raises_goes_on_after_the_job(self, tmp_path: Path) -> None:
        path = tmp_path / "deck"
        with (
            pytest.raises(OutputFailed, match="body"),
            meanwhile(partial(save, path, slides)),
        ):
            raise OutputFailed("body")
        assert path.read_bytes() == b"slides"

    def test_without_a_process_to_split_off(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.delattr("os.fork", raising=False)
        path = tmp_path / "deck"
        with meanwhile(partial(save, path, slides)):
            assert path.exists()
