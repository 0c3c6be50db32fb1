"""The words that answers are made of: small numbers spelled out, counted things, and lists."""

from collections.abc import Sequence
from typing import Final

_NUMBERS: Final = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def number(value: int) -> str:
    """Return a whole number from 0 to 9 in a word, any other in figures; 0 is ``no``."""
    return _NUMBERS[value] if 0 <= value < len(_NUMBERS) else str(value)


def counted(value: int, one: str, many: str | None = None) -> str:
    """Return a number with what it counts: ``one child``, ``12 children``; by default the plural takes an s."""
    return f"{number(value)} {one if value == 1 else many or one + 's'}"


def children(value: int) -> str:
    """Return a number of children: ``one child``, ``12 children``."""
    return counted(value, "child", "children")


def listed(parts: Sequence[str], last: str = "and") -> str:
    """Return parts as a list: ``a``, ``a and b``, ``a, b and c``; ``last`` joins the last two."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} {last} {parts[-1]}"


def opened(words: str) -> str:
    """Return words with a capital at their start."""
    return words[:1].upper() + words[1:]


def percent(share: float) -> str:
    """Return a share of 0 to 1 in whole percent, as is usual in the United States: ``48%``."""
    return f"{round(100 * share)}%"


def joined(numbers: Sequence[int]) -> str:
    """Return numbers as a list: ``1, 2 and 3``."""
    return listed([str(value) for value in numbers])


def in_runs(numbers: Sequence[int]) -> str:
    """Return rising whole numbers, three neighbours or more drawn together by a dash: ``1-4, 6, 8``."""
    return ", ".join(_runs(numbers, "\u2013"))


def lessons_in_words(numbers: Sequence[int]) -> str:
    """Return rising numbers of lessons as a sentence names them: ``lesson 2``, ``lessons 1 to 4 and 6``."""
    return f"lesson{'s' if len(numbers) > 1 else ''} {listed(_runs(numbers, ' to '))}"


def _runs(numbers: Sequence[int], through: str) -> list[str]:
    """Return rising numbers in words, three neighbours or more as the first ``through`` the last."""
    runs: list[list[int]] = []
    for value in numbers:
        if runs and runs[-1][-1] == value - 1:
            runs[-1].append(value)
        else:
            runs.append([value])
    said = [[f"{run[0]}{through}{run[-1]}"] if len(run) > 2 else [str(value) for value in run] for run in runs]
    return [words for run in said for words in run]
