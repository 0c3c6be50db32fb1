"""One native shape: a frame, an outline, a fill, a line, and perhaps words inside."""

from functools import lru_cache
from typing import NamedTuple

from lessonkit.writers.forms import Ink, Ring, Stroke
from lessonkit.writers.word.ledger import Ledger
from lessonkit.writers.word.look import LETTERS
from lessonkit.writers.word.xml import paragraph, quoted, text

EMU_PER_POINT = 12700
_FULL_TURN = 21_600_000
_HALF_TURN = 10_800_000
_SLOTS = {"dk1": "tx1", "lt1": "bg1", "dk2": "tx2", "lt2": "bg2"}


class Box(NamedTuple):
    """The frame of a shape on the drawing, in EMU from its upper left corner."""

    left: int
    top: int
    across: int
    down: int


def preset(form: str) -> str:
    """Return one of the outlines that the format knows by name: rect, ellipse, triangle, line and others."""
    return f'<a:prstGeom prst="{form}"><a:avLst/></a:prstGeom>'


def compound(pieces: tuple[Ring | Stroke, ...], box: Box) -> str:
    """Return an outline of rings and strokes in a box."""
    paths = "".join(_path(piece, box) for piece in pieces)
    return (
        "<a:custGeom><a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/>"
        f'<a:rect l="0" t="0" r="r" b="b"/><a:pathLst>{paths}</a:pathLst></a:custGeom>'
    )


class Look(NamedTuple):
    """A shape without its name and its place: its size in EMU, and the markup before and after these."""

    across: int
    down: int
    before: str
    after: str


def look(across: int, down: int, outline: str, ink: Ink, words: str = "") -> Look:
    """Return how a shape looks; ``words`` is a finished paragraph."""
    inside = f"<wps:txbx><w:txbxContent>{words}</w:txbxContent></wps:txbx>{_BODY}" if words else "<wps:bodyPr/>"
    box = ' txBox="1"' if words and ink.fill is None and ink.line is None else ""
    return Look(
        across,
        down,
        f"<wps:cNvSpPr{box}/><wps:spPr><a:xfrm",
        f'<a:ext cx="{across}" cy="{down}"/></a:xfrm>{outline}{_paint(ink)}</wps:spPr>{inside}</wps:wsp>',
    )


def placed(seen: Look, name: str, left: int, top: int, ledger: Ledger, *, flips: str = "") -> str:
    """Return a shape at a place, with a name that Word's selection list shows."""
    return (
        f'<wps:wsp><wps:cNvPr id="{ledger.next_id()}" name="{quoted(name)}"/>{seen.before}{flips}>'
        f'<a:off x="{left}" y="{top}"/>{seen.after}'
    )


def shape(name: str, box: Box, outline: str, ink: Ink, ledger: Ledger, *, words: str = "", flips: str = "") -> str:
    """Return a shape in a box, with its name; ``words`` is a finished paragraph."""
    return placed(look(box.across, box.down, outline, ink, words), name, box.left, box.top, ledger, flips=flips)


def words_in(words: str, letters: str, style: str = "PlanLabel") -> str:
    """Return the paragraph of words in a shape in one of the letters for drawings; centred by default."""
    return paragraph(style, f"<w:r><w:rPr>{LETTERS[letters]}</w:rPr>{text(words)}</w:r>", _PLACES[style])


_PLACES = {"PlanLabel": '<w:jc w:val="center"/>', "PlanLegend": "", "PlanScale": '<w:jc w:val="right"/>'}
"""Where words stand in their shape. LibreOffice forgets this too of a style in a drawing that stands in a table."""
_BODY = (
    '<wps:bodyPr rot="0" vert="horz" wrap="none" lIns="0" tIns="0" rIns="0" bIns="0" anchor="ctr" anchorCtr="0">'
    "<a:noAutofit/></wps:bodyPr>"
)


def _color(slot: str) -> str:
    return f'<a:schemeClr val="{_SLOTS.get(slot, slot)}"/>'


@lru_cache(maxsize=128)
def _paint(ink: Ink) -> str:
    return _fill(ink) + _line(ink)


def _fill(ink: Ink) -> str:
    if ink.fill is None:
        return "<a:noFill/>"
    if ink.hatched:
        return (
            f'<a:pattFill prst="ltUpDiag"><a:fgClr>{_color(ink.fill)}</a:fgClr>'
            f"<a:bgClr>{_color('lt1')}</a:bgClr></a:pattFill>"
        )
    return f"<a:solidFill>{_color(ink.fill)}</a:solidFill>"


def _line(ink: Ink) -> str:
    if ink.line is None:
        return "<a:ln><a:noFill/></a:ln>"
    head = '<a:headEnd type="triangle" w="med" len="med"/>' if ink.both_ends else ""
    tail = '<a:tailEnd type="triangle" w="med" len="med"/>' if ink.arrow or ink.both_ends else ""
    return (
        f'<a:ln w="{round(ink.thick * EMU_PER_POINT)}"><a:solidFill>{_color(ink.line)}</a:solidFill>'
        f'<a:prstDash val="{ink.dash}"/>'
        f"<a:round/>{head}{tail}</a:ln>"
    )


def _path(piece: Ring | Stroke, box: Box) -> str:
    filled = "" if piece.filled else ' fill="none"'
    start = f'<a:path w="{box.across}" h="{box.down}"{filled}>'
    if isinstance(piece, Ring):
        radius = round(piece.radius)
        begin = _point(piece.x - piece.radius, piece.y)
        arc = f'<a:arcTo wR="{radius}" hR="{radius}" stAng="{_HALF_TURN}" swAng="{_FULL_TURN}"/>'
        return f"{start}<a:moveTo>{begin}</a:moveTo>{arc}<a:close/></a:path>"
    first, *rest = piece.points
    lines = "".join(f"<a:lnTo>{_point(x, y)}</a:lnTo>" for x, y in rest)
    close = "<a:close/>" if piece.closed else ""
    return f"{start}<a:moveTo>{_point(*first)}</a:moveTo>{lines}{close}</a:path>"


def _point(x: float, y: float) -> str:
    return f'<a:pt x="{round(x)}" y="{round(y)}"/>'
