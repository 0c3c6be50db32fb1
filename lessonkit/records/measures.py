"""Small values that records are made of: grades, lengths, dates as authors write them."""

import re
from typing import Final

GRADES: Final = ("K", "1", "2", "3", "4", "5")
"""Every grade of the elementary school, youngest first."""

_LENGTH_WORDS: Final = {"m": 1.0, "cm": 0.01, "ft": 0.3048, "in": 0.0254}
_LENGTH: Final = re.compile(r"([0-9]+(?:\.[0-9]+)?) *(m|cm|ft|in)\b")
LENGTH_PATTERN: Final = r"^[0-9]{1,4}(\.[0-9]{1,3})? *(m|cm|ft|in)( +[0-9]{1,3}(\.[0-9]{1,3})? *(cm|in))?$"
"""What a length looks like in a record: ``6 m``, ``60 cm``, ``20 ft``, ``5 ft 6 in``."""


class Length:
    """A length in metres that remembers the author's own words for it. Not to be changed once made."""

    __slots__ = ("metres", "written")

    def __init__(self, metres: float, written: str) -> None:
        self.metres: Final = metres
        self.written: Final = written

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Length) and self.metres == other.metres

    def __hash__(self) -> int:
        return hash(self.metres)

    def __repr__(self) -> str:
        return f"Length({self.metres!r}, {self.written!r})"

    def __str__(self) -> str:
        return self.written


def read_length(text: str) -> Length:
    """Read ``6 m``, ``60 cm``, ``20 ft`` or ``5 ft 6 in``.

    The foot is 0.3048 m exactly (international foot, 1959). Raises ValueError for anything else.
    """
    if not re.fullmatch(LENGTH_PATTERN, text.strip()):
        raise ValueError(f"{text!r} is not a length such as 6 m, 60 cm, 20 ft or 5 ft 6 in")
    metres = sum(float(number) * _LENGTH_WORDS[unit] for number, unit in _LENGTH.findall(text))
    return Length(round(metres, 4), text.strip())


class GradeBand:
    """The grades from ``first`` to ``last``, both within K to 5, as in ``K-2`` or ``3``. Never changed once made.

    ``grades`` are all of them, youngest first.
    """

    __slots__ = ("first", "grades", "last")

    def __init__(self, first: str, last: str) -> None:
        self.first: Final = first
        self.last: Final = last
        self.grades: Final = GRADES[GRADES.index(first) : GRADES.index(last) + 1]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, GradeBand) and (self.first, self.last) == (other.first, other.last)

    def __hash__(self) -> int:
        return hash((self.first, self.last))

    def __repr__(self) -> str:
        return f"GradeBand({self.first!r}, {self.last!r})"

    def __contains__(self, grade: str) -> bool:
        return grade in self.grades

    @property
    def named(self) -> str:
        """The band with its word: ``grade 3``, ``grades K-2``."""
        return f"{'grade' if self.first == self.last else 'grades'} {self}"

    def __str__(self) -> str:
        return self.first if self.first == self.last else f"{self.first}-{self.last}"


def read_band(text: str | int) -> GradeBand:
    """Read ``K``, ``3``, ``K-2`` or ``3-5``. Raises ValueError for anything else, or a band that runs backwards."""
    first, _, last = str(text).strip().upper().partition("-")
    last = last or first
    if first not in GRADES or last not in GRADES:
        raise ValueError(f"{text!r} is not a grade band such as K-2, 3-5 or 3")
    if GRADES.index(first) > GRADES.index(last):
        raise ValueError(f"the grade band {text!r} runs backwards")
    return GradeBand(first, last)
