"""The shapes of a floor drawing as native Word shapes, to scale.

A plan turns metres into EMU (914 400 to the inch) by one whole factor, so that a shape moved by hand reads back in
metres by one division.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import assert_never

from lessonkit.document.scene import Area, Label, LabelSize, Scene, Segment, Shape, Symbol, Way
from lessonkit.writers import letters
from lessonkit.writers.forms import AREAS, FORMS, LABEL_POINTS, NO_INK, Form, Ink, Ring, Stroke, line_ink, way_ink
from lessonkit.writers.signs import Legend
from lessonkit.writers.spread import half_of
from lessonkit.writers.word.geometry import EMU_PER_POINT, Box, Look, compound, look, placed, preset, shape, words_in
from lessonkit.writers.word.ledger import Ledger

PAD = 2 * EMU_PER_POINT
"""The margin around the floor, in EMU, so that thick lines are not cut."""
_LETTER_WIDTH = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """A scene on paper: EMU per metre, the size of the drawing in EMU, the height of the floor alone, what it means."""

    scene: Scene
    scale: int
    width: int
    height: int
    floor: int
    legend: Legend

    def x(self, metres: float) -> int:
        """Return the place of a point along the drawing's width."""
        return PAD + round(metres * self.scale)

    def y(self, metres: float) -> int:
        """Return the place of a point along the drawing's height, counted from its upper edge."""
        return PAD + round((self.scene.depth - metres) * self.scale)


def shapes_xml(plan: Plan, ledger: Ledger) -> str:
    """Return the shapes of a plan from back to front."""
    return "".join(_shape(found, plan, ledger) for found in plan.scene.shapes)


def words_width(words: str, points: float) -> int:
    """Return roughly how wide words are, in EMU."""
    return round(len(words) * points * _LETTER_WIDTH * EMU_PER_POINT)


def symbol_xml(
    name: str, form: Form, centre: tuple[int, int], half: tuple[float, float], ledger: Ledger, *, label: str = ""
) -> str:
    """Return a symbol around a point; ``half`` is half its width and height in points."""
    seen = _look(form, half, label)
    return placed(seen, name, centre[0] - seen.across // 2, centre[1] - seen.down // 2, ledger)


@lru_cache(maxsize=256)
def _look(form: Form, half: tuple[float, float], label: str) -> Look:
    """Return how a symbol of a size looks; a plan shows most symbols many times."""
    across, down = (round(2 * side * EMU_PER_POINT) for side in half)
    words = words_in(label, _inside_letters(min(across, down))) if label else ""
    return look(across, down, _outline(form, across, down), form.ink, words)


def _outline(form: Form, across: int, down: int) -> str:
    if not form.pieces:
        return preset(form.outline)
    return compound(_fitted(form.pieces, across, down), Box(0, 0, across, down))


def _shape(found: Shape, plan: Plan, ledger: Ledger) -> str:
    match found:
        case Area():
            box = Box(
                plan.x(found.x),
                plan.y(found.y + found.depth),
                round(found.width * plan.scale),
                round(found.depth * plan.scale),
            )
            return shape(found.name, box, preset("rect"), AREAS[found.role], ledger)
        case Segment():
            ends = (plan.x(found.x1), plan.y(found.y1)), (plan.x(found.x2), plan.y(found.y2))
            return line_xml(found.name, ends, line_ink(found.role, found.thin), ledger)
        case Symbol():
            return _symbol(found, plan, ledger)
        case Way():
            return _way(found, plan, ledger)
        case Label():
            return label_xml(found.words, (plan.x(found.x), plan.y(found.y)), found.size, ledger)
        case _:
            assert_never(found)


def line_xml(name: str, ends: tuple[tuple[int, int], tuple[int, int]], ink: Ink, ledger: Ledger) -> str:
    """Return a straight line from its first to its last point, which bears the arrowhead if there is one."""
    (x1, y1), (x2, y2) = ends
    flips = (' flipH="1"' if x2 < x1 else "") + (' flipV="1"' if y2 < y1 else "")
    box = Box(min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1))
    return shape(name, box, preset("line"), ink, ledger, flips=flips)


def label_xml(words: str, centre: tuple[int, int], size: LabelSize, ledger: Ledger) -> str:
    """Return words centred on a point."""
    points = LABEL_POINTS[size]
    width = round(letters.words_width(words, points) * EMU_PER_POINT) if size == "wall" else words_width(words, points)
    across, down = width + 4 * EMU_PER_POINT, round(1.4 * points * EMU_PER_POINT)
    box = Box(centre[0] - across // 2, centre[1] - down // 2, across, down)
    return shape(words, box, preset("rect"), NO_INK, ledger, words=words_in(words, size))


def _symbol(found: Symbol, plan: Plan, ledger: Ledger) -> str:
    centre = (plan.x(found.x), plan.y(found.y))
    form, label = FORMS[found.what], found.label or ""
    half = half_of(found, plan.scale / EMU_PER_POINT)
    return symbol_xml(found.name, form, centre, half, ledger, label=label)


def _way(found: Way, plan: Plan, ledger: Ledger) -> str:
    scale, depth = plan.scale, plan.scene.depth
    points = [(PAD + round(x * scale), PAD + round((depth - y) * scale)) for x, y in found.points]
    across = [x for x, _ in points]
    down = [y for _, y in points]
    box = Box(min(across), min(down), max(across) - min(across), max(down) - min(down))
    ink = way_ink(found.role, found.thin)
    if len(points) == 2 or not box.across or not box.down:
        return line_xml(found.name, (points[0], points[-1]), ink, ledger)
    stroke = Stroke(tuple((x - box.left, y - box.top) for x, y in points))
    return shape(found.name, box, compound((stroke,), box), ink, ledger)


def _inside_letters(room: int) -> str:
    """Return the letters of a label inside a symbol of a size in EMU."""
    if room < 20 * EMU_PER_POINT:
        return "inside"
    if room < 44 * EMU_PER_POINT:
        return "inside-large"
    return "inside-huge" if room < 51 * EMU_PER_POINT else "inside-poster"


def _fitted(pieces: tuple[Ring | Stroke, ...], across: int, down: int) -> tuple[Ring | Stroke, ...]:
    """Return the pieces of a symbol stretched from their square of two by two to a box."""
    return tuple(
        Ring(piece.x * across / 2, piece.y * down / 2, piece.radius * across / 2, piece.filled)
        if isinstance(piece, Ring)
        else Stroke(tuple((x * across / 2, y * down / 2) for x, y in piece.points), piece.closed, piece.filled)
        for piece in pieces
    )
