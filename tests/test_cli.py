"""The command line as other programs call it: what it prints, where, and how it ends."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

import narrate
from narrate import cli, printing
from narrate.errors import Fault, NarrateError, OutputFailed, Place, WrongUse
from narrate.lesson.wishes import AS_USUAL
from narrate.outputs import Options

ROOT = Path(cli.__file__).parents[1]


def run(*words: object, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "narrate", *map(str, words)],
        capture_output=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
    )


class TestWrongUse:
    @pytest.mark.parametrize(
        "words",
        [
            [],
            ["bild", "a.yaml"],
            ["build"],
            ["build", "a.yaml", "--wpm", "fast"],
            ["build", "a.yaml", "--wpm", "5"],
            ["build", "a.yaml", "--builds", "slowly"],
            ["build", "a.yaml", "--templates", "no/such/folder"],
            ["check"],
            ["starter"],
            ["schema", "x"],
        ],
    )
    def test_it_ends_with_two(self, words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
        assert cli.main(words) == 2
        printed = capsys.readouterr()
        assert printed.out == ""
        assert "narrate" in printed.err


def test_help_and_version_end_with_zero(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["--help"]) == 0
    assert cli.main(["build", "--help"]) == 0
    assert cli.main(["--version"]) == 0
    assert capsys.readouterr().out.splitlines()[-1].startswith("narrate ")


def test_schema_prints_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["schema"]) == 0
    assert "items" in json.loads(capsys.readouterr().out)["properties"]


class TestStarter:
    def test_it_is_written_once(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        file = tmp_path / "first.yaml"
        assert cli.main(["starter", str(file)]) == 0
        assert file.read_text(encoding="utf-8").startswith("# yaml-language-server: $schema=")
        file.write_text("mine", encoding="utf-8")
        assert cli.main(["starter", str(file)]) == 2
        assert file.read_text(encoding="utf-8") == "mine"
        told = f"narrate: {file} is there already; give the name of a new file\n"
        assert capsys.readouterr().err == told

    @pytest.mark.parametrize("name", ["first.txt", "first", "my first.yaml", "nul.yaml"])
    def test_its_name_must_be_one_that_is_read(self, tmp_path: Path, name: str) -> None:
        assert cli.main(["starter", str(tmp_path / name)]) == 2
        assert list(tmp_path.iterdir()) == []

    def test_a_folder_that_is_not_there(self, tmp_path: Path) -> None:
        assert cli.main(["starter", str(tmp_path / "none" / "first.yaml")]) == 2


class TestEnds:
    """Nothing that goes wrong inside a command is a traceback."""

    @pytest.mark.parametrize(
        ("error", "code", "line"),
        [
            (WrongUse("no output is called decks"), 2, "narrate: no output is called decks\n"),
            (OutputFailed("deck.pptx is open"), 1, "narrate: deck.pptx is open\n"),
            (NarrateError("x"), 1, "narrate: x\n"),
            (KeyboardInterrupt(), 130, "narrate: stopped\n"),
        ],
    )
    def test_one_line_and_a_code(
        self,
        monkeypatch: pytest.MonkeyPatch,
        capsys: pytest.CaptureFixture[str],
        error: BaseException,
        code: int,
        line: str,
    ) -> None:
        def fail(_: object) -> int:
            """Fails."""
            raise error

        monkeypatch.setattr(cli, "schema", fail)
        assert cli.main(["schema"]) == code
        assert capsys.readouterr().err == line

    def test_faults_outrank_declined_items(self) -> None:
        seen = [(False, False), (False, True), (True, False), (True, True)]
        assert [cli._code(*pair) for pair in seen] == [0, 3, 1, 1]

    @pytest.mark.skipif(os.name == "nt", reason="needs a pipe that can be closed early")
    def test_a_reader_that_goes_away(self) -> None:
        process = subprocess.Popen(
            [sys.executable, "-m", "narrate", "schema"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        assert process.stdout is not None
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == b""
        process.stderr.close()
        assert process.wait() == 0


class TestSolve:
    ROWS = (
        {"item": "a", "part": 1, "status": "solved", "answer": "19/20", "unit": "barrel",
         "key": "C", "written": None, "message": None},
        {"item": "b", "part": 2, "status": "solved", "answer": None, "unit": None,
         "key": ["A", "B"], "written": "1 3/4", "message": None},
        {"item": "c", "part": 1, "status": "declined", "message": "c says nothing"},
        {"item": None, "part": None, "status": "fault", "message": "x.yaml:1:1: empty; fill it"},
    )  # fmt: skip

    def test_json_has_a_line_for_each_part(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert printing.print_json(self.ROWS) == {"solved", "declined", "fault"}
        printed = capsys.readouterr()
        assert [json.loads(line) for line in printed.out.splitlines()] == list(self.ROWS[:3])
        assert printed.err == "x.yaml:1:1: empty; fill it\n"

    def test_a_table_for_readers(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert printing.print_table(self.ROWS) == {"solved", "declined", "fault"}
        printed = capsys.readouterr()
        assert printed.out.splitlines() == [
            "item  part  answer        choice  written",
            "a     1     19/20 barrel  C       -",
            "b     2     -             A, B    1 3/4",
        ]
        assert printed.err == "c says nothing\nx.yaml:1:1: empty; fill it\n"


class TestCommands:
    """What each command hands to the pipeline, and how what comes back is told."""

    FAULT = Fault(place=Place(file="a.yaml", line=2, column=3), wrong="no stem", right="add stem:")

    @pytest.fixture
    def pipeline(self, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
        stub = ModuleType("narrate.pipeline")
        monkeypatch.setitem(sys.modules, "narrate.pipeline", stub)
        monkeypatch.setattr(narrate, "pipeline", stub, raising=False)
        return stub

    def test_build(self, pipeline: ModuleType, capsys: pytest.CaptureFixture[str]) -> None:
        given: dict[str, Any] = {}

        def build(paths: list[Path], **options: Any) -> SimpleNamespace:
            given.update(options, paths=paths)
            options["progress"]("deck.pptx")
            return SimpleNamespace(faults=(self.FAULT,), declined=("b: says nothing",), notes=())

        vars(pipeline)["build"] = build
        words = ["build", "a.yaml", "b", "--to", "x", "--also", "p", "--also", "q", "--wpm", "120"]
        assert cli.main([*words, "--builds", "flat", "--dark"]) == 1
        del given["progress"]
        assert given == {
            "paths": [Path("a.yaml"), Path("b")],
            "to": Path("x"),
            "also": ("p", "q"),
            "only": None,
            "wpm": 120,
            "blank_work": False,
            "wishes": AS_USUAL,
            "options": Options(builds="flat", dark=True),
        }
        printed = capsys.readouterr()
        assert printed.out == ""
        assert printed.err == "deck.pptx\na.yaml:2:3: no stem; add stem:\nb: says nothing\n"

    def test_check_tells_faults_on_stdout(
        self, pipeline: ModuleType, capsys: pytest.CaptureFixture[str]
    ) -> None:
        vars(pipeline)["check"] = lambda _: SimpleNamespace(
            faults=(self.FAULT,), declined=(), notes=()
        )
        assert cli.main(["check", "a.yaml"]) == 1
        assert capsys.readouterr().out == "a.yaml:2:3: no stem; add stem:\n"

    def test_check_without_faults_counts_items(
        self, tmp_path: Path, pipeline: ModuleType, capsys: pytest.CaptureFixture[str]
    ) -> None:
        vars(pipeline)["check"] = lambda _: SimpleNamespace(faults=(), declined=(), notes=("x",))
        file = tmp_path / "a.yaml"
        assert cli.main(["starter", str(file)]) == 0
        capsys.readouterr()
        assert cli.main(["check", str(file)]) == 0
        count = file.read_text(encoding="utf-8").count("- id:")
        printed = capsys.readouterr()
        assert printed.out == f"no faults in {count} items\n"
        assert printed.err == "to settle by eye: x\n"

    def test_check_tells_how_many_can_be_built_where_some_are_declined(
        self, tmp_path: Path, pipeline: ModuleType, capsys: pytest.CaptureFixture[str]
    ) -> None:
        vars(pipeline)["check"] = lambda _: SimpleNamespace(
            faults=(), declined=("a: why",), notes=(), left_out=1
        )
        file = tmp_path / "a.yaml"
        assert cli.main(["starter", str(file)]) == 0
        capsys.readouterr()
        assert cli.main(["check", str(file)]) == 3
        count = file.read_text(encoding="utf-8").count("- id:")
        printed = capsys.readouterr().out
        assert printed == f"no faults in {count} items; {count - 1} can be built\n"

    @pytest.mark.parametrize(("status", "code"), [("fault", 1), ("declined", 3)])
    def test_solve(self, pipeline: ModuleType, status: str, code: int) -> None:
        row = {"item": "a", "part": 1, "status": status, "message": "why"}
        vars(pipeline)["solve"] = lambda _: iter([row])
        assert cli.main(["solve", "a.yaml", "--json"]) == code
        assert cli.main(["solve", "a.yaml"]) == code


def test_output_is_utf8_whatever_the_terminal(tmp_path: Path) -> None:
    ended = run("starter", tmp_path / "béd.yaml", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert ended.returncode == 2
    assert 'the file name "béd" cannot name files' in ended.stderr.decode("utf-8")


def test_the_parser_alone_loads_nothing_heavy() -> None:
    """A cold start is felt: `--help` must not wait for the libraries of the commands."""
    code = (
        "import sys, narrate.cli as c; c.main(['--help']); "
        "print({'pydantic', 'yaml', 'pptx', 'jinja2', 'num2words'} & {*sys.modules})"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        check=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert ended.stdout.splitlines()[-1] == "set()"
