"""The numbering part: one definition for all bullets, and an own one for every numbered list.

Lists that share a definition and begin anew come out right too, but LibreOffice gives each of their stretches a list of
its own when it saves, and a file with some hundred of those loses its styles when it is saved once more.
"""

from functools import lru_cache

from lessonkit.writers.word.ledger import BULLETS, Ledger
from lessonkit.writers.word.look import color
from lessonkit.writers.word.styles import LIST_STEP
from lessonkit.writers.word.xml import DECLARATION, NAMESPACES

DEEPEST = 9
"""Word knows nine levels of list; deeper ones stay on the ninth."""
HIGHEST_START = 32767
"""The highest number that Word lets a list begin with."""
_BULLETS = ("\u2022", "\u2013", "\u00b7")
_NUMBERS = ("decimal", "lowerLetter", "lowerRoman")
HANGING = 260
_SPARE_LEVELS = 3


def numbering_part(ledger: Ledger) -> bytes:
    """Return numbering.xml for the lists that a file has used."""
    lists = tuple(enumerate(ledger.lists, start=1))
    own = "".join(_definition(place, _numbered(level, start)) for place, (level, start) in lists)
    numbers = "".join(_number(BULLETS + place, place) for place, _ in lists)
    return (
        f"{DECLARATION}<w:numbering {NAMESPACES}>{_BULLETED}{own}{_number(BULLETS, 0)}{numbers}</w:numbering>"
    ).encode()


def _number(number: int, definition: int) -> str:
    return f'<w:num w:numId="{number}"><w:abstractNumId w:val="{definition}"/></w:num>'


@lru_cache(maxsize=64)
def _numbered(level: int, start: int) -> str:
    """Return the levels of a list that stands at a level (from 0), and of some deeper ones that an author may add."""
    levels = range(min(level + _SPARE_LEVELS, DEEPEST))
    return "".join(
        _level(place, _NUMBER_RUN, _NUMBERS[place % 3], f"%{place + 1}.", start if place == level else 1)
        for place in levels
    )


def _level(place: int, style: str, form: str, words: str, start: int = 1) -> str:
    return (
        f'<w:lvl w:ilvl="{place}"><w:start w:val="{start}"/><w:numFmt w:val="{form}"/>'
        f'<w:lvlText w:val="{words}"/><w:lvlJc w:val="left"/>'
        f'<w:pPr><w:ind w:left="{LIST_STEP * (place + 1)}" w:hanging="{HANGING}"/></w:pPr>'
        f"<w:rPr>{style}</w:rPr></w:lvl>"
    )


def _definition(number: int, levels: str) -> str:
    identity = f"4C4B{number + 1:04X}"
    return (
        f'<w:abstractNum w:abstractNumId="{number}"><w:nsid w:val="{identity}"/><w:multiLevelType w:val="multilevel"/>'
        f'<w:tmpl w:val="{identity}"/>{levels}</w:abstractNum>'
    )


_BULLET_RUN = '<w:rFonts w:ascii="Calibri" w:hAnsi="Calibri" w:cs="Calibri" w:hint="default"/>' + color("accent2")
_NUMBER_RUN = "<w:b/><w:bCs/>" + color("accent2")
_BULLETED = _definition(
    0, "".join(_level(place, _BULLET_RUN, "bullet", _BULLETS[place % 3]) for place in range(DEEPEST))
)
