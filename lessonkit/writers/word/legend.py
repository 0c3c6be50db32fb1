"""What stands below a floor plan: the symbols with their meaning, and the scale bar."""

from dataclasses import replace
from functools import lru_cache

from lessonkit.document.scene import Scene
from lessonkit.writers.forms import AREAS, NO_INK, Form, Ink, Stroke
from lessonkit.writers.settle import settle
from lessonkit.writers.signs import Legend, Sign, signs
from lessonkit.writers.word.geometry import EMU_PER_POINT, Box, compound, preset, shape, words_in
from lessonkit.writers.word.ledger import Ledger
from lessonkit.writers.word.shapes import PAD, Plan, line_xml, symbol_xml, words_width

_ROW = 12 * EMU_PER_POINT
_ABOVE = 4 * EMU_PER_POINT
_SIGN = 20 * EMU_PER_POINT
_SPACE = 8 * EMU_PER_POINT
_POINTS = 8.0
_SYMBOL = 9 * EMU_PER_POINT
_TICK = 3 * EMU_PER_POINT
_BAR_INK = Ink(line="dk1", thick=1)


@lru_cache(maxsize=64)
def plan_of(scene: Scene, width: int, tallest: int, room: int = 0) -> Plan:
    """Return the plan of a scene whose floor fits a width and a height, with what stands below it.

    The words below may be wider than the floor and reach as far as ``room``.
    """
    entries = signs(scene)
    below = _below(scene, entries, max(width, room), width)
    scale = int(min((width - 2 * PAD) / scene.width, (tallest - below - 2 * PAD) / scene.depth))
    floor = round(scene.depth * scale) + 2 * PAD
    across = round(scene.width * scale) + 2 * PAD
    wide = max(across, min(room, _one_row(scene, entries, across)))
    return Plan(scene, scale, wide, floor + _below(scene, entries, wide, across), floor, entries)


@lru_cache(maxsize=64)
def settled_plan(plan: Plan) -> Plan:
    """Return a plan whose scene is ready to be drawn at its scale."""
    return replace(plan, scene=settle(plan.scene, plan.scale / EMU_PER_POINT))


def _one_row(scene: Scene, entries: Legend, across: int) -> int:
    """Return how wide the legend and the scale bar of a floor of a width are in a single row."""
    return sum(_entry_width(words) for _, words in entries) + _bar_width(scene, across - 2 * PAD) + 2 * PAD


def legend_xml(plan: Plan, ledger: Ledger) -> str:
    """Return the legend's entries in rows, and the scale bar at the right of the first."""
    drawn = [_scale_bar(plan, ledger)] if plan.scene.scale_bar else []
    across = round(plan.scene.width * plan.scale) + 2 * PAD
    for place, row in enumerate(_rows(plan.scene, plan.legend, plan.width, across)):
        left = PAD
        top = plan.floor + _ABOVE + place * _ROW
        for sign, words in row:
            drawn.append(_entry(sign, words, (left, top), ledger))
            left += _entry_width(words)
    return "".join(drawn)


def _below(scene: Scene, entries: Legend, width: int, floor: int) -> int:
    if not scene.legend and not scene.scale_bar:
        return 0
    return _ABOVE + len(_rows(scene, entries, width, floor)) * _ROW


def _rows(scene: Scene, entries: Legend, width: int, floor: int) -> list[list[tuple[Sign, str]]]:
    """Break the legend into rows; the first, which may stay empty, leaves room for the scale bar of the floor."""
    full = width - 2 * PAD
    rows: list[list[tuple[Sign, str]]] = [[]]
    room = full - _bar_width(scene, floor - 2 * PAD)
    for sign, words in entries:
        need = _entry_width(words)
        if need > room and (rows[-1] or len(rows) == 1):
            rows.append([])
            room = full
        rows[-1].append((sign, words))
        room -= need
    return rows


def _bar_width(scene: Scene, floor: int) -> int:
    """Return how wide the scale bar and its words are below a floor of a width."""
    if not scene.scale_bar:
        return 0
    return round(floor * scene.scale_bar / scene.width) + words_width(scene.scale_words, _POINTS) + _SPACE


def _entry_width(words: str) -> int:
    return _SIGN + words_width(words, _POINTS) + _SPACE


def _entry(sign: Sign, words: str, corner: tuple[int, int], ledger: Ledger) -> str:
    left, top = corner
    drawn = _sign(sign, f"Legend: {words}", (left, top + _ROW // 2), ledger)
    box = Box(left + _SIGN, top, words_width(words, _POINTS) + _SPACE // 2, _ROW)
    return drawn + shape(words, box, preset("rect"), NO_INK, ledger, words=words_in(words, "legend", "PlanLegend"))


def _sign(sign: Sign, name: str, start: tuple[int, int], ledger: Ledger) -> str:
    left, middle = start
    reach = _SIGN - 5 * EMU_PER_POINT
    if isinstance(sign, Form):
        scale = _SYMBOL / EMU_PER_POINT / 2 / max(sign.half_width, sign.half_height)
        half = (sign.half_width * scale, sign.half_height * scale)
        return symbol_xml(name, sign, (left + reach // 2, middle), half, ledger)
    if sign not in AREAS.values():
        return line_xml(name, ((left, middle), (left + reach, middle)), sign, ledger)
    return shape(name, Box(left, middle - _SYMBOL // 2, reach, _SYMBOL), preset("rect"), sign, ledger)


def _scale_bar(plan: Plan, ledger: Ledger) -> str:
    length = round(plan.scene.scale_bar * plan.scale)
    right = plan.width - PAD
    top = plan.floor + _ABOVE
    box = Box(right - length, top + _ROW // 2 - _TICK // 2, length, _TICK)
    stroke = Stroke(((0, 0), (0, _TICK), (length, _TICK), (length, 0)))
    bar = shape("Scale bar", box, compound((stroke,), box), _BAR_INK, ledger)
    words = plan.scene.scale_words
    across = words_width(words, _POINTS) + _SPACE
    said = Box(box.left - across, top, across - 3 * EMU_PER_POINT, _ROW)
    return bar + shape(words, said, preset("rect"), NO_INK, ledger, words=words_in(words, "legend", "PlanScale"))
