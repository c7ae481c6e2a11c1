"""The command line: one function a command, each importing what it needs (a cold start is felt).

Exit codes: 0; 1 faults in the input (outranks 3); 2 wrong use; 3 some items declined.
"""

from __future__ import annotations

import argparse
import gc
import io
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from narrate.arguments import (
    add_build,
    add_catch_up,
    add_fit,
    add_paths,
    add_templates,
    options_of,
    wishes_of,
)
from narrate.errors import FaultsFound, NarrateError, WrongUse
from narrate.printing import print_json, print_read, print_table, tell

if TYPE_CHECKING:
    from narrate.pipeline import Outcome

DONE, FAULTS, WRONG_USE, DECLINED, FAILED, INTERRUPTED = 0, 1, 2, 3, 1, 130


def main(argv: list[str] | None = None) -> int:
    """Runs a command and returns its exit code; nothing that can go wrong ends in a traceback."""
    _speak_utf8()
    gc.set_threshold(50_000, 20, 20)  # a short run makes much and drops little: look less often
    try:
        args = _parser().parse_args(argv)
    except SystemExit as stop:  # argparse has printed its message or its help
        return stop.code if isinstance(stop.code, int) else WRONG_USE
    try:
        code = _command(args)(args)
        sys.stdout.flush()
    except BrokenPipeError:
        return _close_quietly()
    except KeyboardInterrupt:
        tell("narrate: stopped")
        return INTERRUPTED
    except FaultsFound as found:
        tell(found)
        return FAULTS
    except NarrateError as error:
        tell(f"narrate: {error}")
        return WRONG_USE if isinstance(error, WrongUse) else FAILED
    return code


def _command(args: argparse.Namespace) -> Callable[[argparse.Namespace], int]:
    run: Callable[[argparse.Namespace], int] = args.run
    return run


def _speak_utf8() -> None:
    """UTF-8 whatever the terminal says; a file name that is no text is shown with escapes."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def _close_quietly() -> int:
    """The reader of our output has gone (`| head`): nothing more to say, nor at exit."""
    with open(os.devnull, "w") as nowhere:  # noqa: PTH123 (a device, by its descriptor)
        os.dup2(nowhere.fileno(), sys.stdout.fileno())
    return DONE


# -- the commands


def build(args: argparse.Namespace) -> int:
    """Writes each review's deck, script, captions and the rest."""
    from narrate import pipeline

    outcome = pipeline.build(
        args.paths,
        to=args.to,
        also=tuple(args.also),
        only=args.only,
        wpm=args.wpm,
        blank_work=args.blank_work,
        wishes=wishes_of(args),
        options=options_of(args),
        progress=tell,
    )
    return _ended(outcome, "to settle by eye")


def fit(args: argparse.Namespace) -> int:
    """Fits captions, chapters, script and data to what was recorded."""
    from narrate import recording
    from narrate.fitting.fit import Source

    told = ("times", "audio", "deck", "sound", "part")
    source = Source(**{name: getattr(args, name) for name in told})
    outcome, lines = recording.fit(
        args.review,
        source,
        to=args.to,
        also=tuple(args.also),
        wishes=wishes_of(args),
        options=options_of(args),
        progress=tell,
    )
    for line in lines:
        print(line)
    return _ended(outcome, "to look at")


def catch_up(args: argparse.Namespace) -> int:
    """Writes a deck of just what was missed, for each set of days that somebody was away."""
    from datetime import date

    from narrate import catch_up, shelf
    from narrate.items.topics import split_topics
    from narrate.lesson.wishes import Wishes

    topics = split_topics(args.topics)
    if args.minutes and not topics:
        raise WrongUse("--minutes goes with --topics: who was away gets all that was missed")
    if args.absent is None and not topics:
        raise WrongUse("--topics names no standard; write --topics 5.NF.A.1,5.NF.A.2")
    asked = shelf.Asked(
        plan=args.plan,
        today=args.today or date.today(),
        absent=args.absent,
        topics=topics,
        minutes=args.minutes,
        twins=args.twins,
        each=args.each,
        built=args.built,
    )
    outcome = catch_up.catch_up(
        asked,
        to=args.to,
        also=tuple(args.also),
        wishes=Wishes(voice=args.voice),
        options=options_of(args),
        progress=tell,
    )
    return _ended(outcome, "to look at")


def solve(args: argparse.Namespace) -> int:
    """Prints the solution of each part: as JSON, one line a part, or as a table."""
    from narrate import pipeline

    rows = pipeline.solve(args.paths)
    seen = print_json(rows) if args.json else print_table(rows)
    return _code("fault" in seen, "declined" in seen)


def read(args: argparse.Namespace) -> int:
    """Prints what was read in each part's words: as JSON, one line a part, or in plain words."""
    from narrate import pipeline

    rows = pipeline.read_parts(args.paths)
    seen = print_json(rows) if args.json else print_read(rows)
    return _code("fault" in seen, "declined" in seen)


def draft(args: argparse.Namespace) -> int:
    """Writes a review file from pasted text, beside it or where --to says; never over a file."""
    from narrate.draft import LONGEST
    from narrate.settling import draft as make

    path: Path = args.file
    target: Path = args.to or path.with_suffix(".yaml")
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise WrongUse(f"there is no file {path}; check its name") from None
    except OSError as error:
        raise WrongUse(f"{path} cannot be opened ({error.strerror}); check its rights") from None
    except UnicodeDecodeError as error:
        raise WrongUse(f"{path} cannot be read as text ({error}); save it as UTF-8") from None
    if len(text) > LONGEST:
        raise WrongUse(f"{path} holds more than {LONGEST} characters; cut it in several files")
    made = make(text, target.stem)
    try:
        with target.open("x", encoding="utf-8", newline="\n") as file:
            file.write(made.text)
    except FileExistsError:
        raise WrongUse(f"{target} is there already; name a new file with --to") from None
    except OSError as error:
        raise WrongUse(f"{target} cannot be written ({error.strerror}); check its folder") from None
    items = "1 item" if made.items == 1 else f"{made.items} items"
    settle = f"; {made.to_settle} of {items} to settle, as its comments say"
    settle = settle if made.to_settle else f"; {items}, none to settle"
    print(f"{target} is written{settle}; next: narrate check {target}")
    return DONE


def check(args: argparse.Namespace) -> int:
    """Reports every fault, the keys checked by solving, what would be declined, what to look at."""
    from narrate import pipeline

    outcome = pipeline.check(args.paths)
    for fault in outcome.faults:
        print(fault)
    for line in outcome.declined:
        tell(f"declined: {line}")
    for line in outcome.notes:
        tell(f"to settle by eye: {line}")
    if not outcome.faults:
        count = _count_items(args.paths)
        built = f"; {count - outcome.left_out} can be built" if outcome.declined else ""
        print(f"no faults in {count} item{'' if count == 1 else 's'}{built}")
    return _code(bool(outcome.faults), bool(outcome.declined))


def _count_items(paths: Sequence[Path]) -> int:
    from narrate.items.loading import load

    return sum(len(review.items) for review in load(paths).reviews)


def schema(args: argparse.Namespace) -> int:
    """Prints the JSON Schema of a review file."""
    from narrate.items.schema import schema as make

    print(json.dumps(make(), indent=2, ensure_ascii=False))
    return DONE


def starter(args: argparse.Namespace) -> int:
    """Writes a commented first review, or voice.yaml; never over a file that is there."""
    from importlib.resources import files

    from narrate.items.texts import name_flaw
    from narrate.saving import save_new

    path: Path = args.file
    if found := name_flaw(path.stem, "the file name"):
        raise WrongUse(f"{found.wrong}; {found.right}")
    if path.suffix.lower() not in (".yaml", ".yml"):
        raise WrongUse(f"{path} is no YAML file; give it a name such as {path.stem}.yaml")
    name = "voice.yaml" if args.voice else "starter.yaml"
    save_new(path, files("narrate.items").joinpath(name).read_text(encoding="utf-8"))
    then = (
        "change it, and build a review beside it" if args.voice else f"next: narrate check {path}"
    )
    print(f"{path} is written; {then}")
    return DONE


def edits(args: argparse.Namespace) -> int:
    """Writes what a review says, beat by beat, to a file beside it in which you change it."""
    from narrate import pipeline
    from narrate.lesson.wishes import Wishes

    wishes = Wishes(voice=args.voice)
    path = pipeline.write_edits(args.review, templates=args.templates, wishes=wishes)
    print(f"{path} is written; change it, then: narrate build {args.review}")
    return DONE


def kinds(args: argparse.Namespace) -> int:
    """Prints what can be solved, with the codes of the standards."""
    from narrate import pipeline

    for line in pipeline.kinds():
        print(line)
    return DONE


# -- what they print


def _ended(outcome: Outcome, remark: str) -> int:
    """Tells what was wrong, left out, or is to be looked at; returns the exit code."""
    for line in (*outcome.faults, *outcome.declined):
        tell(line)
    for line in outcome.notes:
        tell(f"{remark}: {line}")
    return _code(bool(outcome.faults), bool(outcome.declined))


def _code(faults: bool, declined: bool) -> int:
    if faults:
        return FAULTS
    return DECLINED if declined else DONE


# -- the arguments


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="narrate",
        description="Turns mathematics test items into what a teacher needs to record a review.",
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="the version, and no more")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    add_build(_add(commands, "build", build))
    add_fit(_add(commands, "fit", fit))
    add_catch_up(_add(commands, "catch-up", catch_up))
    add_paths(_add(commands, "check", check))
    one = _add(commands, "solve", solve)
    add_paths(one)
    one.add_argument("--json", action="store_true", help="one JSON line for each part")
    words = _add(commands, "read", read)
    add_paths(words)
    words.add_argument("--json", action="store_true", help="one JSON line for each part")
    pasted = _add(commands, "draft", draft)
    pasted.add_argument("file", type=Path, metavar="FILE", help="a text file with pasted items")
    pasted.add_argument("--to", type=Path, metavar="FILE", help="the review file to write")
    _add(commands, "schema", schema)
    first = _add(commands, "starter", starter)
    first.add_argument("file", type=Path, metavar="FILE")
    first.add_argument("--voice", action="store_true", help="a first voice.yaml, not a review")
    own = _add(commands, "edits", edits)
    own.add_argument("review", type=Path, metavar="REVIEW", help="the file of one review")
    add_templates(own)
    _add(commands, "kinds", kinds)
    return parser


class _Version(argparse.Action):
    """Looks the version up only when asked: reading package metadata slows every start."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        from importlib.metadata import PackageNotFoundError, version

        try:
            print(f"narrate {version('narrate')}")
        except PackageNotFoundError:
            print("narrate (not installed)")
        parser.exit()


def _add(
    commands: argparse._SubParsersAction[argparse.ArgumentParser],
    name: str,
    run: Callable[[argparse.Namespace], int],
) -> argparse.ArgumentParser:
    summary = (run.__doc__ or "").splitlines()[0]
    parser = commands.add_parser(name, help=summary, description=summary)
    parser.set_defaults(run=run)
    return parser
