"""A floor drawing as an SVG picture.

Lengths on the page are points of 1/72 inch, measured from the upper left corner.
"""

from dataclasses import dataclass
from typing import assert_never

from lessonkit.document.scene import Area, Label, Scene, Segment, Shape, Symbol, Way
from lessonkit.writers.forms import AREAS, FORMS, LABEL_POINTS, Form, line_ink, way_ink
from lessonkit.writers.letters import words_width
from lessonkit.writers.seal import OPEN_SEAL, sealed
from lessonkit.writers.settle import settle
from lessonkit.writers.signs import Sign, signs
from lessonkit.writers.spread import half_of
from lessonkit.writers.svg_marks import XY, arrow, letters, number, outline, rectangle
from lessonkit.writers.svg_marks import document as svg_document

PAD = 3.0
"""The margin around the floor, in points, so that thick lines are not cut."""
_LARGEST_INSIDE, _POSTER_INSIDE, _LEAST_AROUND = 14.0, 36.0, 24.0
_BOLD = ("large", "poster", "wall")
_ROW = 15.0
_ABOVE = 6.0
_SIGN = 22.0
_SPACE = 12.0
_POINTS = 8.0
_SYMBOL = 9.0


@dataclass(frozen=True, slots=True)
class _Page:
    scene: Scene
    scale: float

    def at(self, x: float, y: float) -> XY:
        """Return the place of a point of the floor."""
        return PAD + x * self.scale, PAD + (self.scene.depth - y) * self.scale

    @property
    def floor(self) -> float:
        """The height of the floor with its margins."""
        return self.scene.depth * self.scale + 2 * PAD


def picture_file(scene: Scene, says: str) -> bytes:
    """Return the picture as a file of its own, sealed so that one that was changed by hand is known."""
    drawn = write_scene(scene, says).removesuffix(b"\n").removesuffix(b"</svg>")
    return sealed(drawn + f"<!-- lessonkit-seal:{OPEN_SEAL} --></svg>\n".encode())


def write_scene(scene: Scene, says: str, width: float = 504.0, height: float | None = None) -> bytes:
    """Return the picture of a scene, ``width`` points wide; ``says`` describes it to those who cannot see it.

    It is as high as it needs, or ``height`` points high with the drawing in the middle.
    """
    scale = (width - 2 * PAD) / scene.width
    page = _Page(settle(scene, scale), scale)
    rows = _rows(scene, width, page)
    needs = page.floor + (_ABOVE + len(rows) * _ROW if scene.legend or scene.scale_bar else 0)
    drawn = [_shape(shape, page) for shape in page.scene.shapes]
    for place, row in enumerate(rows):
        middle = page.floor + _ABOVE + (place + 0.5) * _ROW
        left = PAD
        for sign, words in row:
            drawn.append(_entry(sign, words, (left, middle)))
            left += _entry_width(words)
    if scene.scale_bar:
        drawn.append(_scale_bar(page, width))
    return svg_document((width, height or needs), (width, needs), says, "\n".join(drawn)).encode()


def _shape(shape: Shape, page: _Page) -> str:
    match shape:
        case Area():
            corner = page.at(shape.x, shape.y + shape.depth)
            return rectangle(corner, (shape.width * page.scale, shape.depth * page.scale), AREAS[shape.role])
        case Segment():
            return arrow((page.at(shape.x1, shape.y1), page.at(shape.x2, shape.y2)), line_ink(shape.role, shape.thin))
        case Symbol():
            return _symbol(shape, page)
        case Way():
            return arrow(tuple(page.at(*point) for point in shape.points), way_ink(shape.role, shape.thin))
        case Label():
            return letters(shape.words, page.at(shape.x, shape.y), LABEL_POINTS[shape.size], bold=shape.size in _BOLD)
        case _:
            assert_never(shape)


def _symbol(symbol: Symbol, page: _Page) -> str:
    form = FORMS[symbol.what]
    half = half_of(symbol, page.scale)
    centre = page.at(symbol.x, symbol.y)
    drawn = outline(form, centre, half)
    if symbol.label:
        drawn += letters(
            symbol.label,
            centre,
            min(1.2 * half[1], _POSTER_INSIDE if half[1] >= _LEAST_AROUND else _LARGEST_INSIDE),
            color="lt1",
            bold=True,
        )
    return drawn


def _rows(scene: Scene, width: float, page: _Page) -> list[list[tuple[Sign, str]]]:
    """Break the legend into rows; the first, which may stay empty, leaves room for the scale bar."""
    full = width - 2 * PAD
    rows: list[list[tuple[Sign, str]]] = [[]]
    room = full - (_bar_width(page) if scene.scale_bar else 0)
    for sign, words in signs(scene):
        need = _entry_width(words)
        if need > room and (rows[-1] or len(rows) == 1):
            rows.append([])
            room = full
        rows[-1].append((sign, words))
        room -= need
    return rows


def _bar_width(page: _Page) -> float:
    return page.scene.scale_bar * page.scale + words_width(page.scene.scale_words, _POINTS) + _SPACE


def _entry_width(words: str) -> float:
    return _SIGN + words_width(words, _POINTS) + _SPACE


def _entry(sign: Sign, words: str, start: XY) -> str:
    left, middle = start
    reach = _SIGN - 5
    said = letters(words, (left + _SIGN, middle), _POINTS, color="accent5", start=True)
    if isinstance(sign, Form):
        scale = _SYMBOL / 2 / max(sign.half_width, sign.half_height)
        return outline(sign, (left + reach / 2, middle), (sign.half_width * scale, sign.half_height * scale)) + said
    if sign in AREAS.values():
        return rectangle((left, middle - _SYMBOL / 2), (reach, _SYMBOL), sign) + said
    return arrow(((left, middle), (left + reach, middle)), sign) + said


def _scale_bar(page: _Page, width: float) -> str:
    length = page.scene.scale_bar * page.scale
    right, middle = width - PAD, page.floor + _ABOVE + _ROW / 2
    left = right - length
    points = " ".join(
        f"{number(x)},{number(y)}"
        for x, y in ((left, middle - 2), (left, middle + 2), (right, middle + 2), (right, middle - 2))
    )
    words = letters(page.scene.scale_words, (left - 4, middle), _POINTS, color="accent5", end=True)
    return f'<polyline points="{points}" fill="none" stroke="{_ink()}"/>{words}'


def _ink() -> str:
    from lessonkit.writers.palette import PALETTE

    return f"#{PALETTE['dk1']}"
