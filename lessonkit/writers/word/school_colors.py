"""The colours of a school's theme, fit for words: what is too pale on white is darkened where it carries words."""

import re
from collections.abc import Mapping
from typing import Final
from xml.etree import ElementTree as Xml

from lessonkit.writers.palette import PALETTE

_A: Final = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
_LEAST: Final = 4.5
"""WCAG 2.2, 1.4.3, level AA: contrast of words with what is behind them."""
_NAMES: Final = {"text1": "dk1", "background1": "lt1", "text2": "dk2", "background2": "lt2", "hyperlink": "hlink"}
_SLOTS: Final = {"tx1": "dk1", "bg1": "lt1", "tx2": "dk2", "bg2": "lt2"}
_TIED: Final = re.compile(
    r'(<w:\w+ (?:[^<>]*? )?)w:(val|color|fill)="[0-9A-F]{6}"((?: [^<>]*?)?) w:(themeColor|themeFill)="(\w+)"'
)
_DRAWN: Final = re.compile(r'<a:schemeClr val="(\w+)"/>')
_LIGHT: Final = ("lt1", "lt2")
_LINES: Final = "accent6"
"""The slot of hairlines, which carry no words."""


def read_colors(theme: Xml.Element | None) -> dict[str, str]:
    """Return the colours of a theme by slot; ours where it says nothing, or gives dark grounds, as no paper has."""
    colors = dict(PALETTE)
    scheme = None if theme is None else theme.find(f".//{_A}clrScheme")
    for slot in () if scheme is None else scheme:
        given = next((child.get("lastClr", child.get("val", "")) for child in slot), "")
        if re.fullmatch("[0-9A-Fa-f]{6}", given):
            colors[slot.tag.removeprefix(_A)] = given.upper()
    if contrast(colors["dk1"], "FFFFFF") < _LEAST:
        colors["dk1"] = PALETTE["dk1"]
    if contrast(colors["lt1"], colors["dk1"]) < 2 * _LEAST:
        colors["lt1"] = PALETTE["lt1"]
    if contrast(colors["lt2"], colors["dk1"]) < 2 * _LEAST:
        colors["lt2"] = PALETTE["lt2"]
    return colors


def recolored(markup: str, colors: Mapping[str, str]) -> str:
    """Return markup of ours with a school's colours in place of ours; words keep their contrast."""

    def tied(found: re.Match[str]) -> str:
        slot = _NAMES.get(found[5], found[5])
        color = colors[slot]
        if found[1].startswith("<w:color") and color != readable(color) and slot not in _LIGHT:
            return f'{found[1]}w:{found[2]}="{readable(color)}"{found[3]}'
        return f'{found[1]}w:{found[2]}="{color}"{found[3]} w:{found[4]}="{found[5]}"'

    def drawn(found: re.Match[str]) -> str:
        slot = _SLOTS.get(found[1], found[1])
        color = colors.get(slot, "")
        if slot in (*_LIGHT, _LINES) or not color or color == readable(color):
            return found[0]
        return f'<a:srgbClr val="{readable(color)}"/>'

    return _DRAWN.sub(drawn, _TIED.sub(tied, markup))


def readable(color: str) -> str:
    """Return a colour that words can have on white and on a light tint: the colour itself, or a darker one."""
    channels = [int(color[place : place + 2], 16) for place in (0, 2, 4)]
    while contrast(_hex(channels), PALETTE["lt2"]) < _LEAST:
        channels = [int(channel * 0.92) for channel in channels]
    return _hex(channels)


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours (WCAG 2.2), from 1 to 21."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(color: str) -> float:
    channels = [int(color[place : place + 2], 16) / 255 for place in (0, 2, 4)]
    linear = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _hex(channels: list[int]) -> str:
    return "".join(f"{channel:02X}" for channel in channels)
