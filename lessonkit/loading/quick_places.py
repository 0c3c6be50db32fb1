"""Where a field stands in a file of the usual layout, found by its lines alone, without the YAML reader.

It may be asked only of texts that the quick reader can read. Only fields and items that have a line of their own are
found; whatever is not sure is left to the tree of nodes, which has the same answer.
"""

from typing import NamedTuple

from lessonkit.source.location import FieldPath, Location


class _Spot(NamedTuple):
    """A field or an item: its line (from 0), the columns (from 0) of its name and of its value, and where both end.

    ``name_end`` is 0 for an item; ``value`` is None where the value begins on another line, ``value_end`` where it ends
    on another one.
    """

    line: int
    name: int
    name_end: int
    value: int | None
    value_end: int | None


class _NotSureError(Exception):
    """The tree of nodes has to be asked."""


def quick_place(text: str, field: FieldPath, path: str, on_key: bool) -> Location | None:
    """Return the place of a field's value, or of its name with ``on_key``; None where it is not sure."""
    lines = text.split("\n")
    first = _next(lines, 0)
    try:
        spot, start, column = _field(lines, first, 0), first, 0
        for number, step in enumerate(field):
            if number:
                start, column = _inside(lines, spot)
            found = _find(lines, start, column, step)
            if found is None:
                return _place(spot, path, on_key=True)
            spot = found
    except _NotSureError:
        return None
    return _place(spot, path, on_key or not field)


def _place(spot: _Spot, path: str, on_key: bool) -> Location:
    line, value = spot.line + 1, spot.value
    if spot.name_end and (on_key or value is None):
        return Location(path, line, spot.name + 1, line, spot.name_end + 1)
    start = spot.name if value is None else value
    return Location(path, line, start + 1, line, (spot.value_end or start + 1) + 1)


def _next(lines: list[str], start: int) -> int:
    """Return the next line that says something."""
    for number in range(start, len(lines)):
        rest = lines[number].lstrip(" ")
        if rest and rest[0] != "#":
            return number
    raise _NotSureError


def _find(lines: list[str], start: int, column: int, step: str | int) -> _Spot | None:
    """Return the field or the item that begins at a column, None where it is not there."""
    in_list = lines[start].startswith("- ", column)
    if in_list is isinstance(step, str):
        return None
    count = 0
    for number in range(start, len(lines)):
        line = lines[number]
        rest = line.lstrip(" ")
        indent = len(line) - len(rest)
        if not rest or rest[0] == "#" or indent > column:
            continue
        if indent < column or (in_list and rest[:2] != "- "):
            return None
        if in_list:
            if count == step:
                return _item(lines, number, column)
            count += 1
        elif rest[:2] != "- " and _name(rest) == step:
            return _field(lines, number, column)
    return None


def _name(rest: str) -> str:
    """Return the name of the field on a line, without its quotes."""
    name = rest.partition(": ")[0].removesuffix(":")
    return name[1:-1] if name[:1] in ("'", '"') else name


def _field(lines: list[str], number: int, column: int) -> _Spot:
    line = lines[number]
    name, colon, written = line[column:].partition(": ")
    if not colon:
        if not name.endswith(":"):
            raise _NotSureError
        return _Spot(number, column, len(line) - 1, None, None)
    start = len(line) - len(written.lstrip(" "))
    return _Spot(number, column, column + len(name), start, _end(line, start))


def _item(lines: list[str], number: int, column: int) -> _Spot:
    """Return an item. Its dash is taken off its line, so that the fields of an item all stand below each other."""
    line = lines[number] = lines[number][:column] + "  " + lines[number][column + 2 :]
    start = column + 2
    first = line[start : start + 1]
    if first == " ":
        raise _NotSureError
    if first in "[{\"'" or not (": " in line[start:] or line[-1] == ":"):
        if line.startswith("- ", start) or (first in "\"'" and line[-1] != first):
            raise _NotSureError
        return _Spot(number, start, 0, start, _end(line, start))
    return _Spot(number, start, 0, start, None)


def _end(line: str, start: int) -> int | None:
    """Return where a value ends that begins on a line, None where it ends on another one."""
    if line[start:] == "|":
        return None
    first, last = line[start : start + 1], line[-1]
    if first in "[{" and last not in "]}":
        raise _NotSureError
    return len(line)


def _inside(lines: list[str], spot: _Spot) -> tuple[int, int]:
    """Return the line and the column of the first field or item inside a field or an item."""
    if spot.value is None:
        number = _next(lines, spot.line + 1)
        return number, len(lines[number]) - len(lines[number].lstrip(" "))
    if spot.name_end or spot.value_end is not None:
        raise _NotSureError
    return spot.line, spot.value
