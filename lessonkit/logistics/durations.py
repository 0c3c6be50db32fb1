"""Times in minutes and seconds: read as a teacher writes them, said as a clock or in words."""

import re
from typing import Final

from lessonkit.logistics.lengths import NO_BREAK

_CLOCK: Final = re.compile(r"([0-9]{1,3}):([0-5][0-9])")
_WORDS: Final = re.compile(r"(?:([0-9]{1,4}(?:\.[0-9]+)?) *(?:min|minutes?|m))? *(?:([0-9]{1,4}) *(?:s|sec|seconds?))?")


def read_duration(text: str) -> int:
    """Return the seconds of ``1:30``, ``90 s``, ``1 min 30 s``, ``1.5 min`` or, as minutes, ``2``.

    Raises ValueError for anything else, or for no time at all.
    """
    written = text.strip().lower()
    if clock := _CLOCK.fullmatch(written):
        seconds = 60 * int(clock[1]) + int(clock[2])
    elif re.fullmatch(r"[0-9]{1,4}(\.[0-9]+)?", written):
        seconds = round(60 * float(written))
    elif written and (words := _WORDS.fullmatch(written)):
        seconds = round(60 * float(words[1] or 0)) + int(words[2] or 0)
    else:
        raise ValueError(f"{text!r} is not a time such as 90 s, 1:30 or 2 min")
    if seconds == 0:
        raise ValueError(f"{text!r} is no time at all")
    return seconds


def clock(seconds: int) -> str:
    """Return a time from a lesson's start as minutes and seconds: ``7:30``."""
    return f"{seconds // 60}:{seconds % 60:02}"


def say_duration(seconds: int) -> str:
    """Return a time in words: ``45 s``, ``2 min``, ``1 min 30 s``."""
    minutes, over = divmod(seconds, 60)
    parts = [f"{minutes}{NO_BREAK}min"] if minutes else []
    parts += [f"{over}{NO_BREAK}s"] if over or not minutes else []
    return NO_BREAK.join(parts)
