"""The theme part: the colours and fonts that a school may change in one place."""

from collections.abc import Mapping
from functools import lru_cache

from lessonkit.writers.word.xml import DECLARATION, quoted

FONT = "Calibri"
_MAIN = "http://schemas.openxmlformats.org/drawingml/2006/main"
_FILL = '<a:solidFill><a:schemeClr val="phClr"/></a:solidFill>'
_LINE = f'<a:ln w="9525">{_FILL}<a:prstDash val="solid"/></a:ln>'
_EFFECT = "<a:effectStyle><a:effectLst/></a:effectStyle>"
_FORMATS = (
    f'<a:fmtScheme name="Lesson"><a:fillStyleLst>{_FILL * 3}</a:fillStyleLst><a:lnStyleLst>{_LINE * 3}</a:lnStyleLst>'
    f"<a:effectStyleLst>{_EFFECT * 3}</a:effectStyleLst><a:bgFillStyleLst>{_FILL * 3}</a:bgFillStyleLst></a:fmtScheme>"
)


def theme_part(colors: Mapping[str, str], heading_font: str, font: str) -> bytes:
    """Return theme1.xml with colours by slot and the fonts of headings and of all other words."""
    return _theme(tuple(colors.items()), heading_font, font)


@lru_cache(maxsize=4)
def _theme(colors: tuple[tuple[str, str], ...], heading_font: str, font: str) -> bytes:
    scheme = "".join(f'<a:{slot}><a:srgbClr val="{value}"/></a:{slot}>' for slot, value in colors)
    return (
        f'{DECLARATION}<a:theme xmlns:a="{_MAIN}" name="Lesson"><a:themeElements>'
        f'<a:clrScheme name="Lesson">{scheme}</a:clrScheme>'
        f'<a:fontScheme name="Lesson">{_font("majorFont", heading_font)}{_font("minorFont", font)}</a:fontScheme>'
        f"{_FORMATS}</a:themeElements><a:objectDefaults/><a:extraClrSchemeLst/></a:theme>"
    ).encode()


def _font(kind: str, font: str) -> str:
    return f'<a:{kind}><a:latin typeface="{quoted(font)}"/><a:ea typeface=""/><a:cs typeface=""/></a:{kind}>'
