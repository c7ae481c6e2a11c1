"""Pieces of a video: kept, made once, never taken for whole when they are not (own contract)."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import textwrap
import time
from pathlib import Path
from typing import Any

import pytest

from narrate.cli import main
from narrate.outputs import Options, _crew, video
from tests.outputs.videos import DEMO, shoot, told

pytest.importorskip("av", reason="PyAV writes videos")

SMALL = Options(height=720)


@pytest.fixture
def filmed(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """What is filmed, in this process: the paths."""
    from narrate.outputs import _filming

    film, seen = _filming.film, []

    def watched(take: Any, path: Path) -> None:
        seen.append(path)
        film(take, path)

    monkeypatch.setattr(_filming, "film", watched)
    monkeypatch.setattr(_crew, "FEW", 99)
    return seen


def pieces(folder: Path) -> list[Path]:
    return sorted((folder / "pieces" / "video").rglob("*.piece"))


class TestReuse:
    def test_a_second_build_films_nothing_and_is_the_same(
        self, tmp_path: Path, filmed: list[Path]
    ) -> None:
        first = shoot(tmp_path, SMALL, voice=False).read_bytes()
        count = len(filmed)
        assert count == len(told()[0].pages)
        assert shoot(tmp_path, SMALL, voice=False).read_bytes() == first
        assert len(filmed) == count

    def test_a_build_that_broke_off_goes_on_where_it_was(
        self, tmp_path: Path, filmed: list[Path], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        from narrate.outputs import _filming

        film = _filming.film

        def broken_off(take: Any, path: Path) -> None:
            film(take, path)
            if len(filmed) == 3:
                raise KeyboardInterrupt

        monkeypatch.setattr(_filming, "film", broken_off)
        with pytest.raises(KeyboardInterrupt):
            shoot(tmp_path, SMALL, voice=False)
        assert len(pieces(tmp_path)) == 2
        assert not list((tmp_path / "pieces").rglob("*.part"))  # no half third
        monkeypatch.setattr(_filming, "film", film)
        shoot(tmp_path, SMALL, voice=False)
        assert len(filmed) == 3 + len(told()[0].pages) - 2

    @pytest.mark.parametrize("spoil", [lambda data: data[:-1], lambda data: data + b"\0"])
    def test_a_spoilt_piece_is_made_again(
        self, tmp_path: Path, filmed: list[Path], spoil: Any
    ) -> None:
        whole = shoot(tmp_path, SMALL, voice=False).read_bytes()
        piece = pieces(tmp_path)[0]
        data = piece.read_bytes()
        piece.write_bytes(spoil(data))
        before = len(filmed)
        assert shoot(tmp_path, SMALL, voice=False).read_bytes() == whole
        assert len(filmed) == before + 1
        assert piece.read_bytes() == data

    def test_two_processes_make_what_one_does(self, tmp_path: Path) -> None:
        """Same in, same out: other folders, other processes, the same bytes."""
        (tmp_path / "one").mkdir()
        (tmp_path / "two").mkdir()
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(_crew, "FEW", 99)
            alone = shoot(tmp_path / "one", SMALL).read_bytes()
        assert shoot(tmp_path / "two", SMALL).read_bytes() == alone

    def test_without_a_folder_nothing_is_kept(self, tmp_path: Path) -> None:
        with (tmp_path / "video.mp4").open("wb") as sink:
            video.write(*told(), SMALL, sink)
        assert (tmp_path / "video.mp4").stat().st_size > 100_000
        assert len(list(tmp_path.iterdir())) == 1


class TestWhatCanGoWrong:
    def test_without_av_it_is_said_before_anything_is_written(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
    ) -> None:
        monkeypatch.setitem(sys.modules, "av", None)
        code = main(["build", str(DEMO), "--to", str(tmp_path / "out"), "--also", "video"])
        assert code == 2
        assert capsys.readouterr().err == (
            "narrate: video.mp4 cannot be made yet: install what it needs: "
            'pip install "narrate[audio]"\n'
        )
        assert not (tmp_path / "out").exists()

    def test_where_pieces_cannot_be_kept_they_are_made_all_the_same(self, tmp_path: Path) -> None:
        (tmp_path / "pieces").write_text("a file where the folder should be")
        assert shoot(tmp_path, SMALL, voice=False).stat().st_size > 100_000

    def test_a_folder_that_cannot_be_written(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        (tmp_path / "out").write_text("a file where the folder should be")
        command = ["build", str(DEMO), "--only", "rain-barrel", "--also", "video"]
        code = main([*command, "--spoken-by", "nobody", "--to", str(tmp_path / "out")])
        assert code == 1
        assert "cannot be written (Not a directory); choose another" in capsys.readouterr().err

    def test_no_room(self, tmp_path: Path) -> None:
        """No file may grow beyond 60,000 bytes, which the system refuses as it does a full disk."""
        pytest.importorskip("resource", reason="limits of file sizes are POSIX")
        place = tmp_path / "video.mp4"
        place.write_text("the old one")
        program = f"""
            import resource
            from pathlib import Path
            from narrate.errors import OutputFailed
            from narrate.outputs import Options, video
            from narrate.saving import save
            from tests.outputs.videos import told
            if __name__ == "__main__":
                resource.setrlimit(resource.RLIMIT_FSIZE, (60_000, 60_000))
                own = Options(height=720, pieces=Path({str(tmp_path / "pieces")!r}))
                try:
                    save(Path({str(place)!r}), lambda sink: video.write(*told(), own, sink))
                except OutputFailed as failed:
                    print(failed)
        """
        (tmp_path / "full.py").write_text(textwrap.dedent(program))
        done = subprocess.run(
            [sys.executable, tmp_path / "full.py"],
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONPATH": str(Path.cwd())},
        )
        assert (done.returncode, done.stderr) == (0, "")
        assert done.stdout == (
            f"{place}: not written (File too large), what was there is kept; make room and build "
            "again\n"
        )
        assert place.read_text() == "the old one"
        kept = (path for path in (tmp_path / "pieces").rglob("*") if path.is_file())
        assert {path.suffix for path in kept} == {".piece"}

    def test_where_another_process_dies_its_pieces_are_made_here(self, tmp_path: Path) -> None:
        jobs = [_crew.Job(f"{n:040}", _die_elsewhere(os.getpid()), 0) for n in range(5)]
        made = _crew.make_all(jobs, tmp_path, "test")
        assert [path.read_text() for path in made] == ["made"] * 5


class _die_elsewhere:  # noqa: N801 (read as a function)
    def __init__(self, at_home: int) -> None:
        self.at_home = at_home

    def __call__(self, path: Path) -> None:
        if os.getpid() != self.at_home:
            os._exit(1)
        path.write_text("made")


@pytest.mark.skipif(os.name != "posix", reason="signals are POSIX")
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGKILL])
def test_interrupted_it_leaves_no_half_piece_and_nobody_behind(
    tmp_path: Path, how: signal.Signals
) -> None:
    command = [sys.executable, "-m", "narrate", "build", str(DEMO), "--also", "video"]
    running = subprocess.Popen(
        [*command, "--spoken-by", "nobody", "--to", str(tmp_path)],
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    kept = tmp_path / ".pieces" / "video"
    _wait(lambda: len(list(kept.rglob("*.piece"))) >= 2)
    if how is signal.SIGINT:
        os.killpg(running.pid, how)  # as a terminal does
    else:
        running.kill()
    _, told_us = running.communicate(timeout=60)
    _wait(lambda: not _group(running.pid))
    assert not list(kept.rglob("*.part"))
    assert not (tmp_path / "garden-week" / "lesson.json").exists()
    if how is signal.SIGINT:
        assert running.returncode == 130
        assert told_us.endswith("narrate: stopped\n")
        assert "Traceback" not in told_us
        assert not list((tmp_path / "garden-week").glob(".*.part"))


def _wait(done: Any) -> None:
    for _ in range(600):
        if done():
            return
        time.sleep(0.1)
    pytest.fail("waited for a minute")


def _group(leader: int) -> bool:
    """Whether any process of a group is still there."""
    try:
        os.killpg(leader, 0)
    except ProcessLookupError:
        return False
    return True
