"""Files and folders are written whole or not at all (own contract: DEVELOPERS.md)."""

from __future__ import annotations

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
