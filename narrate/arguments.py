"""The arguments that commands take, and what they may be."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from narrate.items.days import DAY_IS, day

if TYPE_CHECKING:
    from narrate.lesson.wishes import Wishes
    from narrate.outputs import Options


def add_paths(parser: argparse.ArgumentParser) -> None:
    """The reviews, or the folders of reviews."""
    parser.add_argument(
        "paths", nargs="+", type=Path, metavar="PATH", help="a review, or a folder of reviews"
    )


def add_build(parser: argparse.ArgumentParser) -> None:
    """What `narrate build` takes."""
    add_paths(parser)
    _add_where(parser)
    parser.add_argument(
        "--only", metavar="ID[.PART]", help="one item or part by itself, in a folder of its own"
    )
    parser.add_argument(
        "--blank-work", action="store_true", help="empty lines for the work, to write by hand"
    )
    parser.add_argument(
        "--wpm",
        type=_pace,
        metavar="N",
        help="words a minute, 60 to 250; else yours, or the grade's",
    )


def add_fit(parser: argparse.ArgumentParser) -> None:
    """What `narrate fit` takes: a review, and one recording of it."""
    parser.add_argument("review", type=Path, metavar="REVIEW", help="the file of the review")
    source = parser.add_mutually_exclusive_group(required=True)
    source.add_argument(
        "--times", type=Path, metavar="FILE", help="times.json that was noted, or times.csv"
    )
    source.add_argument("--audio", type=Path, metavar="FILE", help="your voice: wav, mp3 or m4a")
    source.add_argument(
        "--deck", type=Path, metavar="FILE", help="a deck recorded with slide timings"
    )
    parser.add_argument(
        "--sound",
        type=Path,
        metavar="FILE",
        help="with --times or --deck: your voice on these times, for what is heard",
    )
    parser.add_argument(
        "--part", default="", metavar="ID[.PART]", help="only this was recorded (again)"
    )
    _add_where(parser)


def add_catch_up(parser: argparse.ArgumentParser) -> None:
    """What `narrate catch-up` takes: a plan, and who was away or which topics."""
    parser.add_argument(
        "--plan", type=Path, metavar="YAML", required=True, help="which items were reviewed when"
    )
    source = parser.add_mutually_exclusive_group(required=True)
    source.add_argument(
        "--absent", type=Path, metavar="CSV", help="who was away when: a row a code and day"
    )
    source.add_argument(
        "--topics", default="", metavar="CODE,CODE,...", help="one deck of these standards instead"
    )
    parser.add_argument(
        "--minutes", type=_minutes, metavar="N", help="with --topics: as many items as fit in"
    )
    parser.add_argument(
        "--twins", action="store_true", help="fresh numbers for items still held as a test"
    )
    parser.add_argument("--each", action="store_true", help="a folder of its own for each pupil")
    parser.add_argument(
        "--today", type=_day, metavar="DATE", help="the day that hold-until is measured by (today)"
    )
    parser.add_argument(
        "--built",
        type=_folder,
        default=Path("out"),
        metavar="DIR",
        help="where the plan's reviews were built or fitted (out): their lessons are taken as is",
    )
    _add_outputs(parser, Path("out/catch-up"))
    add_templates(parser)


def _add_where(parser: argparse.ArgumentParser) -> None:
    _add_outputs(parser, Path("out"))
    _add_telling(parser)
    add_templates(parser)


def _add_outputs(parser: argparse.ArgumentParser, to: Path) -> None:
    """Where to, which outputs, and how they look."""
    parser.add_argument(
        "--to", type=Path, default=to, metavar="DIR", help=f"where to write ({to.as_posix()})"
    )
    parser.add_argument(
        "--also", action="append", default=[], metavar="OUTPUT", help="an output beside the usual"
    )
    parser.add_argument(
        "--builds",
        choices=("by-hand", "timed", "flat"),
        default="by-hand",
        help="what appears comes at your click, by itself in time, or on slides of its own",
    )
    parser.add_argument("--dark", action="store_true", help="the look of a board")
    parser.add_argument(
        "--theme", type=Path, metavar="PPTX", help="your own template: its master, colours, fonts"
    )
    parser.add_argument(
        "--spoken-by",
        default="",
        metavar="NAME",
        help="the voice of what is heard, or nobody; else the first that is installed",
    )
    parser.add_argument(
        "--height",
        type=int,
        choices=(1080, 720),
        default=1080,
        help="how high the video is, in pixels",
    )
    parser.add_argument(
        "--loop", action="store_true", help="selfrun.pptx starts again when it has ended"
    )


def _add_telling(parser: argparse.ArgumentParser) -> None:
    """How much is told, in which order, and how fast."""
    parser.add_argument(
        "--order", default="", metavar="ID,ID,...", help="the items that come first, in this order"
    )
    parser.add_argument(
        "--answers", type=Path, metavar="CSV", help="what pupils answered: a row a code"
    )
    parser.add_argument(
        "--detail",
        choices=("full", "brief", "lines"),
        default="full",
        help="all that is thought aloud, less of it, or the lines of work only",
    )
    parser.add_argument(
        "--minutes", type=_minutes, metavar="N", help="leave out as much as it takes to end in time"
    )


def add_templates(parser: argparse.ArgumentParser) -> None:
    """How it is worded: her templates, and her voice."""
    parser.add_argument(
        "--templates", type=_folder, metavar="DIR", help="a folder of your own sentences"
    )
    parser.add_argument(
        "--voice",
        type=Path,
        metavar="FILE",
        help="how you speak; else voice.yaml beside the review",
    )


def _pace(text: str) -> int:
    pace = int(text)
    if not 60 <= pace <= 250:
        raise argparse.ArgumentTypeError(f"{pace} words a minute; use 60 to 250")
    return pace


def _minutes(text: str) -> int:
    minutes = int(text)
    if not 1 <= minutes <= 600:
        raise argparse.ArgumentTypeError(f"{minutes} minutes; use 1 to 600")
    return minutes


def _day(text: str) -> date:
    found = day(text)
    if found is None:
        raise argparse.ArgumentTypeError(f"{text} is no day; {DAY_IS}")
    return found


def _folder(text: str) -> Path:
    folder = Path(text)
    if not folder.is_dir():
        raise argparse.ArgumentTypeError(f"there is no folder {text}")
    return folder


def wishes_of(args: argparse.Namespace) -> Wishes:
    """The teacher's wishes for the lesson, as a value."""
    from narrate.items.picking import split_order
    from narrate.lesson.wishes import Wishes

    return Wishes(
        order=split_order(args.order),
        answers=args.answers,
        voice=args.voice,
        detail=args.detail,
        minutes=args.minutes,
    )


def options_of(args: argparse.Namespace) -> Options:
    """The options of outputs, as a value. Raises WrongUse where a template cannot be read."""
    from narrate.outputs import make_options

    return make_options(
        builds=args.builds,
        dark=args.dark,
        theme=args.theme,
        templates=args.templates,
        spoken_by=args.spoken_by,
        loop=args.loop,
        pieces=_kept_in(args) / ".pieces",
        height=args.height,
    )


def _kept_in(args: argparse.Namespace) -> Path:
    """Where what took long is kept: where lessons are built, for `catch-up` to find it there."""
    built: Path | None = getattr(args, "built", None)
    to: Path = args.to
    return built if built and built.is_dir() else to
