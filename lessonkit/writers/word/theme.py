"""The theme part: the colours and fonts that a school may change in one place."""

from lessonkit.writers.palette import PALETTE
from lessonkit.writers.word.xml import DECLARATION

FONT = "Calibri"
_MAIN = "http://schemas.openxmlformats.org/drawingml/2006/main"


def _colors() -> str:
    return "".join(f'<a:{slot}><a:srgbClr val="{value}"/></a:{slot}>' for slot, value in PALETTE.items())


def _font(kind: str) -> str:
    return f'<a:{kind}><a:latin typeface="{FONT}"/><a:ea typeface=""/><a:cs typeface=""/></a:{kind}>'


_FILL = '<a:solidFill><a:schemeClr val="phClr"/></a:solidFill>'
_LINE = f'<a:ln w="9525">{_FILL}<a:prstDash val="solid"/></a:ln>'
_EFFECT = "<a:effectStyle><a:effectLst/></a:effectStyle>"
_FORMATS = (
    f'<a:fmtScheme name="Lesson"><a:fillStyleLst>{_FILL * 3}</a:fillStyleLst><a:lnStyleLst>{_LINE * 3}</a:lnStyleLst>'
    f"<a:effectStyleLst>{_EFFECT * 3}</a:effectStyleLst><a:bgFillStyleLst>{_FILL * 3}</a:bgFillStyleLst></a:fmtScheme>"
)
THEME_PART = (
    f'{DECLARATION}<a:theme xmlns:a="{_MAIN}" name="Lesson"><a:themeElements>'
    f'<a:clrScheme name="Lesson">{_colors()}</a:clrScheme>'
    f'<a:fontScheme name="Lesson">{_font("majorFont")}{_font("minorFont")}</a:fontScheme>'
    f"{_FORMATS}</a:themeElements><a:objectDefaults/><a:extraClrSchemeLst/></a:theme>"
).encode()
"""theme1.xml, the same in every file."""
