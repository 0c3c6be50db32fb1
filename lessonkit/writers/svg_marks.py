"""The marks that an SVG drawing is made of: outlines, arrows and words, in points from the upper left corner."""

from dataclasses import replace
from html import escape
from math import ceil, dist, sqrt

from lessonkit.writers.forms import Form, Ink, Ring, Stroke
from lessonkit.writers.palette import PALETTE
from lessonkit.writers.ways import length, without_end

XY = tuple[float, float]
_FONT = "Arial, Liberation Sans, Helvetica, sans-serif"
_HATCH_THICK = 0.6
_HATCH_STEP = 6 * sqrt(2)
"""From one line of a hatch to the next along an edge: six points apart, at 45 degrees."""
_HATCH_AT = 0.3 * sqrt(2)
_DASHES = {"dash": (4, 3), "sysDash": (3, 1), "sysDot": (1, 1)}
"""Points drawn and left out, of a line of usual thickness."""


def number(value: float) -> str:
    """Return a number with at most two decimals."""
    return f"{value:.2f}".rstrip("0").rstrip(".") if round(value, 2) else "0"


def document(size: XY, drawn: XY, says: str, content: str) -> str:
    """Return a whole SVG document with its description; what is ``drawn`` stands in the middle of its size."""
    (width, height), (across, down) = size, drawn
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(width)}pt" height="{number(height)}pt" '
        f'viewBox="0 0 {number(across)} {number(down)}" role="img" aria-labelledby="says" '
        f'font-family="{_FONT}">\n<title id="says">{escape(says)}</title>\n{content}\n</svg>\n'
    )


def rectangle(corner: XY, size: XY, ink: Ink, *, rounded: float = 0) -> str:
    """Return a rectangle from its upper left corner."""
    (x, y), (across, down) = corner, size
    corners = f' rx="{number(rounded)}"' if rounded else ""
    return (
        f'<rect x="{number(x)}" y="{number(y)}" width="{number(across)}" height="{number(down)}"{corners}'
        f"{_fill(ink)}{_line(ink)}/>{_hatch(corner, size, ink) if ink.hatched else ''}"
    )


def outline(form: Form, centre: XY, half: XY) -> str:
    """Return a symbol around its centre; ``half`` is half its width and height."""
    (x, y), (across, down) = centre, half
    if form.pieces:
        return "".join(_piece(piece, form.ink, centre, half) for piece in form.pieces)
    match form.outline:
        case "ellipse":
            return _ellipse(centre, half, form.ink)
        case "diamond":
            points: tuple[XY, ...] = ((x, y - down), (x + across, y), (x, y + down), (x - across, y))
        case "triangle":
            points = ((x, y - down), (x + across, y + down), (x - across, y + down))
        case "roundRect":
            return rectangle((x - across, y - down), (2 * across, 2 * down), form.ink, rounded=0.3 * down)
        case _:
            return rectangle((x - across, y - down), (2 * across, 2 * down), form.ink)
    return f'<polygon points="{_points(points)}"{_fill(form.ink)}{_line(form.ink)}/>'


def arrow(points: tuple[XY, ...], ink: Ink) -> str:
    """Return a run of straight lines, with a head at its end where its ink has one."""
    drawn, heads = points, ""
    if ink.arrow or ink.both_ends:
        drawn, heads = _headed(points, ink)
    if ink.both_ends:
        back, more = _headed(drawn[::-1], ink)
        drawn, heads = back[::-1], heads + more
    return f'<polyline points="{_points(drawn)}" fill="none"{_line(ink)} stroke-linejoin="round"/>{heads}'


def letters(
    words: str, at: XY, points: float, *, color: str = "dk1", bold: bool = False, start: bool = False, end: bool = False
) -> str:
    """Return words centred on a point; with ``start`` they begin there, with ``end`` they end there."""
    anchor = "start" if start else "end" if end else "middle"
    weight = ' font-weight="bold"' if bold else ""
    halo = f' stroke="#{PALETTE["lt1"]}" stroke-width="2" stroke-linejoin="round" paint-order="stroke"'
    look = f'fill="#{PALETTE[color]}"{weight}{halo if color == "dk1" else ""}'
    return (
        f'<text x="{number(at[0])}" y="{number(at[1] + 0.36 * points)}" font-size="{number(points)}" '
        f'text-anchor="{anchor}" {look}>{escape(words)}</text>'
    )


def _headed(points: tuple[XY, ...], ink: Ink) -> tuple[tuple[XY, ...], str]:
    """Return a run of lines that ends at the back of its arrowhead, and the arrowhead."""
    tip = points[-1]
    size = min(2.6 * ink.thick + 2, 0.8 * length(points))
    shaft = without_end(points, tip, size)
    x, y = shaft[-1]
    away = dist(tip, shaft[-1]) or 1.0
    half = 0.42 * size / away
    aside = ((y - tip[1]) * half, (tip[0] - x) * half)
    corners = (tip, (x + aside[0], y + aside[1]), (x - aside[0], y - aside[1]))
    return shaft, f'<polygon points="{_points(corners)}" fill="#{PALETTE[ink.line or "dk1"]}"/>'


def _piece(piece: Ring | Stroke, ink: Ink, centre: XY, half: XY) -> str:
    """Return a piece of a compound outline, stretched from its square of two by two."""
    (x, y), (across, down) = centre, half
    kept = ink if piece.filled else replace(ink, fill=None)
    if isinstance(piece, Ring):
        middle = (x + (piece.x - 1) * across, y + (piece.y - 1) * down)
        return _ellipse(middle, (piece.radius * across, piece.radius * down), kept)
    points = _points(tuple((x + (px - 1) * across, y + (py - 1) * down) for px, py in piece.points))
    return f'<{"polygon" if piece.closed else "polyline"} points="{points}"{_fill(kept)}{_line(kept)}/>'


def _ellipse(centre: XY, half: XY, ink: Ink) -> str:
    (x, y), (across, down) = centre, half
    place = f'cx="{number(x)}" cy="{number(y)}" rx="{number(across)}" ry="{number(down)}"'
    return f"<ellipse {place}{_fill(ink)}{_line(ink)}/>"


def _points(points: tuple[XY, ...]) -> str:
    return " ".join(_point(x, y) for x, y in points)


def _point(x: float, y: float) -> str:
    return f"{number(x)},{number(y)}"


def _fill(ink: Ink) -> str:
    if ink.fill is None:
        return ' fill="none"'
    return f' fill="#{PALETTE["lt1" if ink.hatched else ink.fill]}"'


def _hatch(corner: XY, size: XY, ink: Ink) -> str:
    """Return thin lines that rise to the right over a rectangle, all in one path.

    A pattern would say the same in fewer letters, but programs paint a turned pattern many times slower.
    """
    (left, top), (right, low) = corner, (corner[0] + size[0], corner[1] + size[1])
    first, last = (ceil((side - _HATCH_AT) / _HATCH_STEP) for side in (left + top, right + low))
    places = (place * _HATCH_STEP + _HATCH_AT for place in range(first, last))
    ends = ((max(left, at - low), min(right, at - top), at) for at in places)
    lines = "".join(f"M{_point(start, at - start)} {_point(end, at - end)}" for start, end, at in ends)
    return f'<path d="{lines}" stroke="#{PALETTE[ink.fill or "dk1"]}" stroke-width="{_HATCH_THICK}"/>'


def _line(ink: Ink) -> str:
    if ink.line is None:
        return ""
    lengths = " ".join(number(length * ink.stretch) for length in _DASHES.get(ink.dash, ()))
    dash = f' stroke-dasharray="{lengths}"' if lengths else ""
    return f' stroke="#{PALETTE[ink.line]}" stroke-width="{number(ink.thick)}"{dash}'
