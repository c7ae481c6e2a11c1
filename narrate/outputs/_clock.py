"""Times as they are written: for WebVTT, for SubRip and for people."""

from __future__ import annotations


def vtt_time(ms: int) -> str:
    """`01:02:03.456`, as WebVTT writes a timestamp."""
    return _timestamp(ms, ".")


def srt_time(ms: int) -> str:
    """`01:02:03,456`, as SubRip writes it."""
    return _timestamp(ms, ",")


def _timestamp(ms: int, point: str) -> str:
    seconds, thousandths = divmod(ms, 1_000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}{point}{thousandths:03}"


def minutes_seconds(ms: int) -> str:
    """`3:07`: the second that is running, as a player's clock shows it."""
    minutes, seconds = divmod(ms // 1_000, 60)
    return f"{minutes}:{seconds:02}"


def tenths(ms: int) -> int:
    """Milliseconds in tenths of a second, halves up."""
    return (ms + 50) // 100


def one_place(in_tenths: int) -> str:
    """`7.5` from 75 tenths of a second, `5.0` from 50: for columns."""
    return f"{in_tenths // 10}.{in_tenths % 10}"


def seconds(in_tenths: int) -> str:
    """`7.5` from 75 tenths of a second, `5` from 50: for running text."""
    return one_place(in_tenths).removesuffix(".0")
