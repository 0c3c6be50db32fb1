"""What a drawing or a picture in a Word file shows: shapes with their words and colours, or a picture's mark."""

from collections.abc import Iterator, Mapping
from typing import Final
from xml.etree import ElementTree as Xml
from zlib import crc32

from lessonkit.writers.word.line import Line
from lessonkit.writers.word.resolved import name, whole

_DRAW: Final = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
_PLACED: Final = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}"
_SHAPE: Final = "{http://schemas.microsoft.com/office/word/2010/wordprocessingShape}"
_RELATED: Final = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
_SLOTS: Final = {"tx1": "dk1", "bg1": "lt1", "tx2": "dk2", "bg2": "lt2"}


def picture_mark(content: bytes) -> str:
    """Return what tells a picture from another one."""
    return checked_mark(crc32(content), len(content))


def checked_mark(checksum: int, size: int) -> str:
    """Return a picture's mark from its checksum and its number of bytes."""
    return f"{checksum:08x} {size}"


class Drawn:
    """Reads the drawings of one part. ``pictures`` are the marks of pictures by the part's relations."""

    def __init__(self, colors: Mapping[str, str], pictures: Mapping[str, str], frames: str) -> None:
        self._colors = colors
        self._pictures = pictures
        self._frames = frames

    def lines(self, drawn: Xml.Element) -> Iterator[Line]:
        """Yield a line for a drawing, and one for each of its shapes."""
        extent = next(drawn.iter(f"{_PLACED}extent"), None)
        shapes = list(drawn.iter(f"{_SHAPE}wsp"))
        boxes = [] if shapes else list(drawn.iter(name("txbxContent")))
        size = () if extent is None else (whole(extent.get("cx", "")), whole(extent.get("cy", "")))
        marks = tuple((0, self._pictures[each]) for each in _blips(drawn) if self._pictures.get(each))
        yield Line("drawing" if shapes or boxes else "picture", look=self._frames, sizes=size, marks=marks)
        for shape in shapes:
            yield Line("shape", _plain(shape), self._inks(shape), _frame(shape))
        for box in boxes:
            yield Line("shape", _plain(box), sizes=(0, 0, 0, 0))

    def _inks(self, shape: Xml.Element) -> str:
        """Return the colours of a shape's area and of its line."""
        properties = shape.find(f"{_SHAPE}spPr")
        if properties is None:
            return ""
        return f"{self._color(properties)} {self._color(properties.find(f'{_DRAW}ln'))}"

    def _color(self, parent: Xml.Element | None) -> str:
        solid = None if parent is None else parent.find(f"{_DRAW}solidFill")
        if solid is None or not len(solid):
            return ""
        written = solid[0].get("val", "")
        return self._colors.get(_SLOTS.get(written, written), written).upper()


def _blips(drawn: Xml.Element) -> Iterator[str]:
    for blip in drawn.iter(f"{_DRAW}blip"):
        yield blip.get(f"{_RELATED}embed", "") or blip.get(f"{_RELATED}link", "")


def _plain(element: Xml.Element) -> str:
    return " ".join("".join(found.text or "" for found in element.iter(name("t"))).split())


def _frame(shape: Xml.Element) -> tuple[int, ...]:
    """Return where a shape stands and how large it is, in EMU."""
    frame = shape.find(f".//{_DRAW}xfrm")
    sizes = []
    for child, names in (("off", ("x", "y")), ("ext", ("cx", "cy"))):
        found = None if frame is None else frame.find(f"{_DRAW}{child}")
        sizes += [0 if found is None else whole(found.get(each, "")) for each in names]
    return tuple(sizes)
