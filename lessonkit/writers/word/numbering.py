"""The numbering part: one definition for bullets, one for numbers, and an own count for every numbered list."""

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


def numbering_part(ledger: Ledger) -> bytes:
    """Return numbering.xml for the lists that a file has used."""
    numbers = "".join(
        f'<w:num w:numId="{BULLETS + place}"><w:abstractNumId w:val="1"/>'
        f'<w:lvlOverride w:ilvl="{level}"><w:startOverride w:val="{start}"/></w:lvlOverride></w:num>'
        for place, (level, start) in enumerate(ledger.lists, start=1)
    )
    return (
        f"{DECLARATION}<w:numbering {NAMESPACES}>{_DEFINITIONS}"
        f'<w:num w:numId="{BULLETS}"><w:abstractNumId w:val="0"/></w:num>{numbers}</w:numbering>'
    ).encode()


def _level(place: int, style: str, form: str, words: str) -> str:
    return (
        f'<w:lvl w:ilvl="{place}"><w:start w:val="1"/><w:numFmt w:val="{form}"/>'
        f'<w:lvlText w:val="{words}"/><w:lvlJc w:val="left"/>'
        f'<w:pPr><w:ind w:left="{LIST_STEP * (place + 1)}" w:hanging="{HANGING}"/></w:pPr>'
        f"<w:rPr>{style}</w:rPr></w:lvl>"
    )


def _definition(number: int, identity: str, levels: list[str]) -> str:
    return (
        f'<w:abstractNum w:abstractNumId="{number}"><w:nsid w:val="{identity}"/><w:multiLevelType w:val="multilevel"/>'
        f'<w:tmpl w:val="{identity}"/>{"".join(levels)}</w:abstractNum>'
    )


_BULLET_RUN = '<w:rFonts w:ascii="Calibri" w:hAnsi="Calibri" w:cs="Calibri" w:hint="default"/>' + color("accent2")
_NUMBER_RUN = "<w:b/><w:bCs/>" + color("accent2")
_DEFINITIONS = _definition(
    0, "4C4B0001", [_level(place, _BULLET_RUN, "bullet", _BULLETS[place % 3]) for place in range(DEEPEST)]
) + _definition(
    1, "4C4B0002", [_level(place, _NUMBER_RUN, _NUMBERS[place % 3], f"%{place + 1}.") for place in range(DEEPEST)]
)
