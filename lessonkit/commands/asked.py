"""What a user writes after an option, read as numbers and times; anything else ends in a sentence."""

import re
from math import inf

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import quoted


def whole_number(written: str, option: str, what: str, least: int, most: int) -> int:
    """Return the whole number that stands for ``what`` (a plural) at an option, from ``least`` to ``most``.

    Raises CannotRunError with a sentence for anything else.
    """
    try:
        value = int(written)
    except ValueError:
        value = None
    if value is None or not least <= value <= most:
        raise CannotRunError(f"{option} {written}: the number of {what} must be a whole number from {least} to {most}.")
    return value


def duration(written: str, option: str, most: int = 24 * 3600) -> int:
    """Return the seconds of a time at an option, such as ``4``, ``4:30`` or ``90 s``; at most ``most`` seconds.

    Raises CannotRunError with a sentence for anything else.
    """
    from lessonkit.logistics.durations import read_duration, say_duration

    try:
        seconds = read_duration(written)
    except ValueError as fault:
        raise CannotRunError(f"{option}: {fault}.") from None
    if seconds > most:
        raise CannotRunError(f"{option} {written}: that is longer than {say_duration(most)}.")
    return seconds


def change_time(written: str, option: str) -> int:
    """Return the seconds of a change at an option, which unlike other times may be 0 (no time at all)."""
    zero = written.strip().removesuffix("s").removesuffix("min").strip(" 0:") == ""
    return 0 if zero and "0" in written else duration(written, option, 3600)


def sides(words: str) -> tuple[float, float]:
    """Return two sides in metres, written as ``6 m by 2 m`` or ``6 x 2 m``. Raises CannotRunError for anything else."""
    parts = [part.strip() for part in re.split(r"\s+by\s+|\s*[x\u00d7]\s*", words.strip())]
    if len(parts) != 2:
        raise CannotRunError(f"{quoted(words)} is not a size such as '6\u00a0m by 2\u00a0m'.")
    if parts[0].replace(".", "", 1).isdigit():
        parts[0] += " " + parts[1].lstrip("0123456789. ").split(" ")[0]
    if re.fullmatch(r"[0-9.]+", parts[1]):
        raise CannotRunError(
            f"{quoted(words)} has no unit of measure; write m, cm, ft or in, as in '6\u00a0m by 2\u00a0m'."
        )
    sides = length(parts[0]), length(parts[1])
    if not min(sides):
        raise CannotRunError("a space and a room need a length and a width above zero.")
    return sides


def length(words: str) -> float:
    """Return a length in metres, written in any unit. Raises CannotRunError for anything else."""
    from lessonkit.records.measures import read_length

    try:
        return read_length(words).metres
    except ValueError as error:
        raise CannotRunError(f"{error}.") from error


def seconds(written: str) -> float:
    """Return a time for a search in seconds. Raises ValueError where it is no number above 0 that ends."""
    value = float(written)
    if not 0 < value < inf:
        raise ValueError
    return value
