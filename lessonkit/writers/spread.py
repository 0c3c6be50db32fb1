"""The marks of a drawing as large as there is room for, and moved a little where they would touch.

A mark has a smallest size on paper, larger than the thing it stands for where many metres share a page. What crowds
there is drawn smaller, children losing their numbers first; what still touches moves aside, inside its group's space.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import hypot
from typing import NamedTuple

from lessonkit.document.scene import Area, Scene, Symbol
from lessonkit.records.activity import Thing
from lessonkit.writers.apart import Mark, Pair, keep_in, near_pairs, push_apart
from lessonkit.writers.forms import FORMS, half_size
from lessonkit.writers.ways import XY


class _Size(NamedTuple):
    """A size to try: with numbers or not, a share of the smallest sizes, points kept free between two marks."""

    numbered: bool
    least: float
    gap: float


_SIZES = (
    _Size(True, 1.0, 1.5),
    _Size(False, 1.0, 1.5),
    _Size(False, 0.8, 1.2),
    _Size(False, 0.6, 0.9),
    _Size(False, 0.45, 0.7),
    _Size(False, 0.3, 0.5),
)
_LAST = _SIZES[-1]
_FARTHEST = 2.5
"""Points that a mark may be pushed before the next size is tried; at the last size it moves as far as it must."""
_STRAY, _OF_A_METRE = 3.0, 0.4
"""Points, and metres, that a mark may stand away from its place in all, a ball beside the child who holds it, too."""
_TURNS, _LAST_TURNS = 16, 60
"""How often the marks of a group are pushed before a size is given up."""
_BEYOND = 8.0
"""Points between two marks that cannot come to touch."""
_BESIDE = 0.001
"""Metres beside a space that count as inside."""
_FREE: tuple[Thing, ...] = ("child", "teacher", "cone", "ball")
"""What may stand on or in anything else; the later of two moves aside, and a ball as far as it must."""
_ROUND = frozenset({"child", "ball", "spot", "hoop"})


@dataclass(slots=True)
class _Group:
    """Marks that share a space: its size in points, their places in it, and the pairs that may not touch."""

    size: XY
    symbols: list[Symbol]
    homes: list[XY]
    pairs: list[Pair] = field(default_factory=list)

    def likeness(self) -> object:
        """Return what groups with the same marks at the same places have in common."""
        whats = [(symbol.what, is_inside(symbol)) for symbol in self.symbols]
        return (*_rounded(self.size), *whats, *map(_rounded, self.homes))


def spread(scene: Scene, scale: float) -> list[Symbol]:
    """Return the symbols of a scene, in their order, as they are drawn at ``scale`` points a metre."""
    symbols = [shape for shape in scene.shapes if isinstance(shape, Symbol)]
    alike: dict[object, _Group] = {}
    members: list[tuple[list[int], XY, object]] = []
    for inside, (left, low), size in _spaces(symbols, scene, scale):
        homes = [(symbols[one].x * scale - left, symbols[one].y * scale - low) for one in inside]
        group = _Group(size, [symbols[one] for one in inside], homes)
        known = group.likeness()
        members.append((inside, (left, low), known))
        if known not in alike:
            alike[known] = group
            group.pairs.extend(_pairs(group, scale))
    chosen, places = _fitted(alike, scale)
    drawn = list(symbols)
    for inside, (left, low), known in members:
        for one, (x, y) in zip(inside, places[known], strict=True):
            drawn[one] = _drawn(symbols[one], ((left + x) / scale, (low + y) / scale), chosen)
    return drawn


def is_inside(symbol: Symbol) -> bool:
    """Tell whether a symbol's label is drawn inside it: short ones in symbols with room."""
    return symbol.label is not None and FORMS[symbol.what].inside and len(symbol.label) <= 2


def half_of(symbol: Symbol, scale: float) -> XY:
    """Return half the width and height of a symbol on paper, in points."""
    return half_size(FORMS[symbol.what], scale, labelled=is_inside(symbol), least=symbol.least)


def stands_on(one: Symbol, other: Symbol) -> bool:
    """Tell whether one of two things is meant to stand on or in the other."""
    free = [symbol.what in _FREE for symbol in (one, other)]
    if all(free) or one.what == other.what:
        return False
    low = min(one, other, key=lambda symbol: (symbol.what in _FREE, -FORMS[symbol.what].half_width))
    form = FORMS[low.what]
    return abs(one.x - other.x) <= form.half_width + 0.02 and abs(one.y - other.y) <= form.half_height + 0.02


def _spaces(symbols: Sequence[Symbol], scene: Scene, scale: float) -> Iterator[tuple[list[int], XY, XY]]:
    """Yield the symbols that share a group's space, its near left corner and its size; then those of no group."""
    rest = list(range(len(symbols)))
    for area in scene.shapes:
        if rest and isinstance(area, Area) and area.role == "group":
            (left, right), (low, high) = _edges(area.width), _edges(area.depth)
            inside = [
                one
                for one in rest
                if left <= symbols[one].x - area.x <= right and low <= symbols[one].y - area.y <= high
            ]
            if inside:
                held = set(inside)
                rest = [one for one in rest if one not in held]
                yield inside, (area.x * scale, area.y * scale), (area.width * scale, area.depth * scale)
    if rest:
        yield rest, (0.0, 0.0), (scene.width * scale, scene.depth * scale)


def _edges(side: float) -> XY:
    """Return the ends of a side, a little outside of it."""
    return -_BESIDE, side + _BESIDE


def _pairs(group: _Group, scale: float) -> Iterator[Pair]:
    """Yield the marks that may come to touch, once they are inside their space."""
    largest = max(max(half_of(symbol, scale)) for symbol in group.symbols)
    across, up = (max(side - largest, largest) for side in group.size)
    kept = [(min(max(x, largest), across), min(max(y, largest), up)) for x, y in group.homes]
    for one, other in near_pairs(kept, 2 * largest + _BEYOND):
        if not stands_on(group.symbols[one], group.symbols[other]):
            yield one, other


def _fitted(groups: dict[object, _Group], scale: float) -> tuple[_Size, dict[object, list[XY]]]:
    """Return the largest size at which all groups find places, and these."""
    for size in _SIZES:
        places: dict[object, list[XY]] = {}
        for known, group in groups.items():
            found = _places(group, scale, size)
            if found is None:
                break
            places[known] = found
        else:
            return size, places
    return _LAST, {known: group.homes for known, group in groups.items()}


def _places(group: _Group, scale: float, size: _Size) -> list[XY] | None:
    """Return where a group's marks stand free of each other; None where that is too far from where they belong."""
    marks = [_mark(symbol, home, scale, size) for symbol, home in zip(group.symbols, group.homes, strict=True)]
    keep_in(marks, group.size)
    kept = [(mark.x, mark.y) for mark in marks]
    if size is _LAST:
        push_apart(marks, group.pairs, group.size, _LAST_TURNS)
    elif not push_apart(marks, group.pairs, group.size, _TURNS):
        return None
    else:
        most = _STRAY + _OF_A_METRE * scale
        if not all(_is_near(*each, most) for each in zip(marks, kept, group.homes, strict=True)):
            return None
    return [(mark.x, mark.y) for mark in marks]


def _mark(symbol: Symbol, home: XY, scale: float, size: _Size) -> Mark:
    labelled = size.numbered and is_inside(symbol)
    across, up = half_size(FORMS[symbol.what], scale, labelled=labelled, least=size.least)
    free = symbol.what in _FREE
    return Mark(
        *home,
        across,
        up,
        round=symbol.what in _ROUND,
        ease=_FREE.index(symbol.what) + 1 if free else 0,
        gap=0.0 if symbol.what == "ball" else size.gap,
        edge=size.gap if free and size is not _LAST else 0.0,
    )


def _is_near(mark: Mark, kept: XY, home: XY, most: float) -> bool:
    """Tell whether a mark stands near to where it belongs, and where it stood inside its space before it was pushed."""
    pushed = 0.0 if mark.ease == len(_FREE) else hypot(mark.x - kept[0], mark.y - kept[1])
    return pushed <= _FARTHEST and hypot(mark.x - home[0], mark.y - home[1]) <= most


def _drawn(symbol: Symbol, at: XY, size: _Size) -> Symbol:
    """Return a symbol at its size and its place; one that hardly moved stays where it was."""
    x, y = round(at[0], 4), round(at[1], 4)
    if hypot(x - symbol.x, y - symbol.y) < 0.005:
        x, y = symbol.x, symbol.y
    label = symbol.label if size.numbered or not is_inside(symbol) else None
    return Symbol(x, y, symbol.what, symbol.name, label, size.least)


def _rounded(at: XY) -> tuple[float, float]:
    return round(at[0], 1), round(at[1], 1)
