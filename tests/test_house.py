"""The house itself: who may import whom, no binary numbers, and what the wheel holds.

The import table is the project's own design (DEVELOPERS.md, "The map").
"""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

import narrate
from narrate import pipeline
from narrate.items.schema import ItemSource, PartSource, ReviewSource, StimulusSource, keys

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "narrate"

ROOMS = {
    "exact": set(),
    "pasting": set(),
    "items": {"exact"},
    "reading": {"exact", "items"},
    "solution": {"exact", "items", "reading"},
    "kinds": {"exact", "items", "reading", "solution"},
    "lesson": {"exact", "items", "reading", "solution"},
    "outputs": {"exact", "lesson"},
    "fitting": {"exact", "items", "lesson"},
    "voices": {"exact", "lesson"},
    "twins": {"exact", "items", "reading", "solution", "kinds", "lesson"},
}
"""Each room and the rooms it may import, beside itself and `errors`, which is open to all."""

HALL = {
    "__init__",
    "__main__",
    "arguments",
    "built",
    "catch_up",
    "cli",
    "draft",
    "errors",
    "hearing",
    "leftover",
    "pipeline",
    "recording",
    "printing",
    "report",
    "saving",
    "settling",
    "shelf",
    "writing",
}
"""Modules that lie in no room. Rooms import none of them but `errors`."""


def files(room: str = "") -> list[Path]:
    return sorted((PACKAGE / room).rglob("*.py"))


def names_imported(source: str, package: str) -> Iterator[str]:
    """The full names of everything a module imports, wherever in it the import stands."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package.rsplit(".", node.level - 1)[0] if node.level else ""
            start = ".".join(filter(None, (base, node.module)))
            yield from (f"{start}.{alias.name}" for alias in node.names)


def places_imported(source: str, package: str) -> set[str]:
    """The rooms, and the modules outside rooms, that a module imports."""
    split = [name.split(".") for name in names_imported(source, package)]
    return {parts[1] for parts in split if parts[0] == "narrate" and len(parts) > 1}


def numbers_in_binary(source: str) -> list[int]:
    """The lines with a float literal or the name `float`.

    How alike two spellings must be (difflib's `cutoff=`) is no number of an item.
    """
    tree = ast.parse(source)
    spelling = {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.keyword) and node.arg == "cutoff"
    }
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, float | complex):
            found += [] if id(node) in spelling else [node.lineno]
        elif isinstance(node, ast.Name) and node.id == "float":
            found.append(node.lineno)
    return found


class TestImports:
    """Data goes one way: rooms import only rooms that stand before them in the table."""

    def test_the_table_names_every_room(self) -> None:
        assert {path.parent.name for path in PACKAGE.glob("*/__init__.py")} == set(ROOMS)
        assert {path.stem for path in PACKAGE.glob("*.py")} == HALL

    @pytest.mark.parametrize("room", ROOMS)
    def test_a_room_imports_only_what_it_may(self, room: str) -> None:
        allowed = ROOMS[room] | {room, "errors"}
        for path in files(room):
            seen = places_imported(path.read_text("utf-8"), f"narrate.{room}")
            assert seen <= allowed, f"{path.relative_to(ROOT)} imports {seen - allowed}"

    def test_the_table_itself_goes_one_way(self) -> None:
        order = list(ROOMS)
        for room, allowed in ROOMS.items():
            assert all(order.index(other) < order.index(room) for other in allowed)

    def test_errors_stands_alone(self) -> None:
        assert places_imported((PACKAGE / "errors.py").read_text("utf-8"), "narrate") == set()

    def test_no_kind_is_named_outside_its_file(self) -> None:
        """A kind is found by its file: no other module may know its name."""
        kinds = {path.stem for path in files("kinds") if not path.stem.startswith("_")}
        assert kinds
        for path in files():
            seen = names_imported(path.read_text("utf-8"), f"narrate.{path.parent.name}")
            for kind in kinds:
                assert not any(kind in name.split(".") for name in seen), path

    @pytest.mark.parametrize(
        ("source", "seen"),
        [
            ("import narrate.kinds.fraction_sums", {"kinds"}),
            ("from narrate import pipeline, kinds", {"pipeline", "kinds"}),
            ("def f():\n    from narrate.outputs.deck import write", {"outputs"}),
            ("from ..lesson import marks", {"lesson"}),
            ("from . import tree", {"exact"}),
            ("import json", set()),
        ],
    )
    def test_the_check_sees_every_way_of_importing(self, source: str, seen: set[str]) -> None:
        assert places_imported(source, "narrate.exact") == seen


class TestExact:
    """No number of an item or a solution is ever binary."""

    @pytest.mark.parametrize("room", ["exact", "items", "reading", "solution", "kinds"])
    def test_no_floats(self, room: str) -> None:
        for path in files(room):
            assert numbers_in_binary(path.read_text("utf-8")) == [], path.relative_to(ROOT)

    @pytest.mark.parametrize("source", ["x = 0.5", "x = float('1')", "map(float, y)", "x = 1e3"])
    def test_the_check_sees_them(self, source: str) -> None:
        assert numbers_in_binary(source) == [1]


class TestSize:
    """Small enough to read: the limits of the project's own habits, with a little room."""

    def test_modules(self) -> None:
        long = {str(p.relative_to(ROOT)): len(p.read_text("utf-8").splitlines()) for p in files()}
        assert {name: lines for name, lines in long.items() if lines > 420} == {}

    def test_functions(self) -> None:
        lengths = []
        for path in files():
            for node in ast.walk(ast.parse(path.read_text("utf-8"))):
                if isinstance(node, ast.FunctionDef):
                    assert node.end_lineno is not None
                    lengths.append((node.end_lineno - node.lineno + 1, f"{path.name}:{node.name}"))
        lengths.sort()
        assert lengths[len(lengths) // 2][0] <= 9
        assert [name for length, name in lengths if length > 40] == []


def test_the_map_of_the_house_names_every_room() -> None:
    """A newcomer reads it first."""
    told = narrate.__doc__ or ""
    for place in (*ROOMS, "pipeline", "errors", "cli", "report", "saving", "templates"):
        assert place in told


class TestReadme:
    """What a newcomer copies from it works."""

    TEXT = (ROOT / "README.md").read_text("utf-8")

    def test_start_has_two_blocks_to_run(self) -> None:
        start = self.TEXT.split("\n## Start\n")[1].split("\n## ")[0]
        first, second = re.findall(r"^```sh\n(.*?)^```$", start, re.DOTALL | re.MULTILINE)
        assert first.splitlines()[-1].endswith("narrate build problems/garden-week.yaml")
        assert second.rstrip().endswith("-m pytest")

    def test_its_picture_is_there(self) -> None:
        pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", self.TEXT)
        assert pictures
        assert all((ROOT / name).stat().st_size < 150_000 for name in pictures)

    def test_its_example_is_solved(self, tmp_path: Path) -> None:
        (example,) = re.findall(r"^```yaml\n(.*?)^```$", self.TEXT, re.DOTALL | re.MULTILINE)
        file = tmp_path / "example.yaml"
        file.write_text(example, "utf-8")
        rows = list(pipeline.solve([file]))
        assert {row["status"] for row in rows} == {"solved"}
        table = self.TEXT.split("\nEvery key:\n")[1].split("\nA question has")[0]
        for source in (ReviewSource, ItemSource, PartSource, StimulusSource):
            for key in keys(source):
                # A picture would need a file beside the example, which a newcomer does not have;
                # a question told by hand is one that cannot be solved.
                if key not in ("image", "alt", "told"):
                    assert re.search(rf"^ *(- )?{key}:", example, re.MULTILINE), key
                assert re.search(rf"`{key}:?`", table), key

    def test_every_command_is_named(self) -> None:
        printed = subprocess.run(
            [sys.executable, "-m", "narrate", "--help"],
            cwd=ROOT,
            check=True,
            capture_output=True,
            text=True,
        ).stdout
        commands = re.findall(r"^    (\w+) ", printed, re.MULTILINE)
        assert "build" in commands
        assert all(f"`narrate {command}" in self.TEXT for command in commands)


# -- the wheel


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built without a network by the back end that pyproject.toml names."""
    folder = tmp_path_factory.mktemp("wheel")
    words = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(words, cwd=ROOT, check=True, capture_output=True)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that holds what the wheel installs and nothing else."""
    folder = tmp_path_factory.mktemp("installed")
    options = ["--no-index", "--no-deps", "--no-compile", "--quiet", "--target", str(folder)]
    words = [sys.executable, "-m", "pip", "install", *options, str(wheel)]
    subprocess.run(words, check=True, capture_output=True)
    return folder


class TestWheel:
    def test_it_holds_all_that_runs_and_nothing_else(self, wheel: Path) -> None:
        sources = [path for path in PACKAGE.rglob("*") if path.is_file()]
        wanted = {p.relative_to(ROOT).as_posix() for p in sources if "__pycache__" not in p.parts}
        templates = [path for path in (ROOT / "templates").rglob("*") if path.is_file()]
        wanted |= {f"narrate/{path.relative_to(ROOT).as_posix()}" for path in templates}
        held = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
        assert held == wanted
        assert {"narrate/items/starter.yaml", "narrate/templates/pages/script.html.j2"} <= held
        assert any(name.startswith("narrate/templates/en/") for name in held)

    def test_it_builds_a_review_where_it_is_installed(
        self, installed: Path, tmp_path: Path
    ) -> None:
        """From another folder, with the checkout out of reach."""
        environment = {**os.environ, "PYTHONPATH": str(installed)}

        def run(*words: str) -> str:
            ended = subprocess.run(
                [sys.executable, *words],
                cwd=tmp_path,
                env=environment,
                check=True,
                capture_output=True,
                text=True,
                encoding="utf-8",
            )
            return ended.stdout

        found = run("-c", "import narrate; print(narrate.__file__)").strip()
        assert Path(found).is_relative_to(installed)
        assert run("-m", "narrate", "--version").startswith("narrate ")
        run("-m", "narrate", "starter", "first.yaml")
        run("-m", "narrate", "build", "first.yaml")
        made = {path.name for path in (tmp_path / "out" / "first").iterdir()}
        assert {"deck.pptx", "script.html", "captions.vtt", "lesson.json"} <= made
