"""A build that cannot go on, or is stopped: told plainly, nothing lost, nothing left behind."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.voices.test_voices import need

REVIEW = Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml"
LIMITED = """
import resource, signal, sys
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, ({most}, resource.RLIM_INFINITY))
from narrate.cli import main
sys.exit(main(sys.argv[1:]))
"""
"""A disk on which no file can grow beyond a size: writing fails as on a full one."""


@pytest.fixture(autouse=True)
def _espeak() -> None:
    need("espeak-ng")


@pytest.fixture
def rooms(tmp_path: Path) -> dict[str, str]:
    """The environment with a folder of its own for temporary files."""
    (tmp_path / "tmp").mkdir()
    return {**os.environ, "TMPDIR": str(tmp_path / "tmp")}


def words(tmp_path: Path) -> list[str]:
    to = str(tmp_path / "out")
    return ["build", str(REVIEW), "--only", "rain-barrel", "--also", "selfrun", "--to", to]


def files(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def wrapped(folder: Path, first: str) -> None:
    """espeak-ng, but for something that is done first."""
    real = shutil.which("espeak-ng")
    folder.mkdir()
    engine = folder / "espeak-ng"
    engine.write_text(f'#!/bin/sh\n{first}\nexec {real} "$@"\n')
    engine.chmod(0o755)


def left(folder: Path) -> list[Path]:
    """What is left of temporary files; compiled templates are kept there on purpose."""
    return [path for path in folder.iterdir() if not path.name.startswith("_jinja2-cache")]


def run(arguments: list[str], rooms: dict[str, str], most: int = 0) -> tuple[int, str]:
    program = ["-c", LIMITED.format(most=most)] if most else ["-m", "narrate"]
    done = subprocess.run(
        [sys.executable, *program, *arguments], env=rooms, capture_output=True, text=True
    )
    assert "Traceback" not in done.stderr
    return done.returncode, done.stderr


@pytest.mark.parametrize(
    ("most", "told"),
    [
        (3_000_000, "what is heard cannot be written (File too large); make room"),
        (8_000, "not written (File too large), what was there is kept"),
    ],
)
def test_a_full_disk(most: int, told: str, tmp_path: Path, rooms: dict[str, str]) -> None:
    """First where the sound is put together, then where a file of the review is written."""
    wrapped(tmp_path / "bin", "ulimit -S -f unlimited")  # the engine has files of its own
    rooms = {**rooms, "PATH": f"{tmp_path / 'bin'}:{os.environ['PATH']}"}
    silent = ["--spoken-by", "nobody"] if most < 100_000 else []
    assert run([*words(tmp_path), *silent], rooms)[0] == 0
    shutil.rmtree(tmp_path / "out" / ".pieces", ignore_errors=True)
    before = files(tmp_path / "out")
    code, errors = run([*words(tmp_path), *silent, "--dark"], rooms, most)
    assert code == 1
    assert told in errors
    after = {p: data for p, data in files(tmp_path / "out").items() if ".pieces" not in p.parts}
    assert after.keys() == before.keys()
    lesson = next(path for path in before if path.name == "lesson.json")
    assert after[lesson] == before[lesson]
    assert not list((tmp_path / "out").rglob("*.part"))
    assert not left(tmp_path / "tmp")


def test_a_folder_that_cannot_be_written(tmp_path: Path, rooms: dict[str, str]) -> None:
    (tmp_path / "out").write_text("a file")
    code, errors = run(words(tmp_path), rooms)
    assert code == 1
    assert "cannot be written" in errors
    assert (tmp_path / "out").read_text() == "a file"
    assert not left(tmp_path / "tmp")


def test_stopped_while_it_speaks_and_begun_again(tmp_path: Path, rooms: dict[str, str]) -> None:
    """Control-C goes to all processes of the terminal; what was said by then is not said again."""
    said = f'[ "$1" = --version ] || {{ echo x >> {tmp_path}/said; sleep 0.2; }}'
    wrapped(tmp_path / "bin", said)
    rooms = {**rooms, "PATH": f"{tmp_path / 'bin'}:{os.environ['PATH']}"}
    command = [sys.executable, "-m", "narrate", *words(tmp_path)]
    building = subprocess.Popen(
        command, env=rooms, stderr=subprocess.PIPE, text=True, start_new_session=True
    )
    pieces = tmp_path / "out" / ".pieces" / "voice"
    while len(list(pieces.rglob("*.piece"))) < 4:
        assert building.poll() is None
        time.sleep(0.05)
    os.killpg(building.pid, signal.SIGINT)
    _, errors = building.communicate(timeout=60)
    assert building.returncode == 130
    assert errors.endswith("narrate: stopped\n")
    with pytest.raises(ProcessLookupError):  # nobody of its group is left
        os.killpg(building.pid, 0)
    assert not left(tmp_path / "tmp")
    assert {path.suffix for path in files(tmp_path / "out")} == {".piece"}
    kept, before = len(list(pieces.rglob("*.piece"))), (tmp_path / "said").read_text().count("x")
    assert run(words(tmp_path), rooms)[0] == 0
    whole = len(list(pieces.rglob("*.piece")))
    assert (tmp_path / "said").read_text().count("x") - before == whole - kept
