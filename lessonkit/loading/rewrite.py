"""Changes to the text of a record file: a value set, an item of a list added or taken out, every other byte kept."""

import re
import textwrap
from typing import Any, Final

from lessonkit.loading.nodes import MappingNode, Node, ScalarNode, SequenceNode, compose
from lessonkit.loading.text import read_text
from lessonkit.loading.values import Reader
from lessonkit.source.location import FieldPath

_LINE: Final = re.compile("[^\r\n]*(?:\r\n|\r|\n|$)")
_FEW: Final = 2
_USUAL_WIDTH: Final = 100
_MARK: Final = "\ufeff"
_PLAIN: Final = re.compile(r"[^\s\-?:,\[\]{}#&*!|>'\"%@`](?:[^:#\n\r]|:(?=\S)|(?<=\S)#)*")
_NOT_WORDS: Final = re.compile(r"~|null|true|false|[-+.]?[0-9].*|\.(inf|nan)", re.IGNORECASE)


class CannotRewriteError(Exception):
    """The place is written in a way that cannot be changed safely; the message says why."""


def set_value(text: str, path: str, field: FieldPath, value: str | int) -> str:
    """Return a file's text with another value at a field that is there, in the manner in which the old one stands.

    Raises CannotRewriteError where the field is missing or holds a list or fields.
    """
    node, parents = _find(text, path, field)
    if not isinstance(node, ScalarNode):
        raise CannotRewriteError("it holds more than one value")
    start, end = _span(text, node)
    if node.style in ("|", ">"):
        value = str(value).rstrip("\n") + _ends(node.value)
        changed = _block(text, start, end, value)
    else:
        changed = _inline(str(value), node.style or "", number=isinstance(value, int), flow=_in_flow(parents))
        changed = _over_lines(changed, text[start:end])
    return _checked(text, text[:start] + changed + text[end:], path, field, value)


def insert_item(text: str, path: str, field: FieldPath, place: int, value: str) -> str:
    """Return a file's text with a new item in a list of words, before the item at ``place`` or at the list's end."""
    node, _ = _find(text, path, field)
    if not isinstance(node, SequenceNode) or not node.value:
        raise CannotRewriteError("the list is empty or missing")
    if node.flow_style:
        words = _inline(value, "", number=False, flow=True)
        if place < len(node.value):
            start = _span(text, node.value[place])[0]
            changed = f"{text[:start]}{words}, {text[start:]}"
        else:
            end = _span(text, node.value[-1])[1]
            changed = f"{text[:end]}, {words}{text[end:]}"
    else:
        near = node.value[min(place, len(node.value) - 1)]
        start, end = _item_lines(text, near)
        dash = _dash(text, near)
        words = _inline(value, "", number=False, flow=False)
        at = start if place < len(node.value) else end
        closed = "" if at == start or text[:end].endswith(("\n", "\r")) else _line_end(text)
        changed = f"{text[:at]}{closed}{dash}{words}{_line_end(text)}{text[at:]}"
    return _checked(text, changed, path, (*field, place), value, insert=True)


def remove_item(text: str, path: str, field: FieldPath) -> str:
    """Return a file's text without an item of a list, which is not the list's only one."""
    node, parents = _find(text, path, field)
    above = parents[-1] if parents else None
    if not isinstance(above, SequenceNode) or len(above.value) < 2:
        raise CannotRewriteError("a list may not lose its only item")
    if above.flow_style:
        place = above.value.index(node)
        if place:
            start, end = _span(text, above.value[place - 1])[1], _span(text, node)[1]
        else:
            start, end = _span(text, node)[0], _span(text, above.value[1])[0]
    else:
        _dash(text, node)
        start, end = _item_lines(text, node)
    return _checked(text, text[:start] + text[end:], path, field, None)


def value_at(text: str, path: str, field: FieldPath) -> object:
    """Return the value of a field in a file's text. Raises CannotRewriteError where there is none."""
    value = _data(text, path)
    try:
        for step in field:
            value = value[step]  # type: ignore[index]  # a missing step is caught
    except (KeyError, IndexError, TypeError):
        raise CannotRewriteError("the record has no such field any more") from None
    return value


def _data(text: str, path: str) -> object:
    return Reader(path).value(compose(read_text(text.encode(), path), path))


def _find(text: str, path: str, field: FieldPath) -> tuple[Node, list[Node]]:
    node = compose(read_text(text.encode(), path), path)
    parents: list[Node] = []
    for step in field:
        parents.append(node)
        found: Node | None = None
        if isinstance(node, MappingNode) and isinstance(step, str):
            found = next((value for key, value in node.value if key.value == step), None)
        elif isinstance(node, SequenceNode) and isinstance(step, int) and step < len(node.value):
            found = node.value[step]
        if found is None:
            raise CannotRewriteError("the record has no such field any more")
        node = found
    return node, parents


def _span(text: str, node: Node) -> tuple[int, int]:
    """Return where a node begins and ends in a text; a mark counts no sign of byte order."""
    starts = [match.start() for match in _LINE.finditer(text)]
    marks = (node.start_mark, node.end_mark)
    first, last = (
        starts[mark.line] + mark.column + (mark.line == 0 and text.startswith(_MARK))
        if mark.line < len(starts)
        else len(text)
        for mark in marks
    )
    return first, last


def _item_lines(text: str, node: Node) -> tuple[int, int]:
    """Return the whole lines of an item of a list, a remark behind its last one included."""
    start, end = _span(text, node)
    begin = max(text.rfind("\n", 0, start), text.rfind("\r", 0, start)) + 1
    while end > start and text[end - 1] in " \n\r\t":
        end -= 1
    rest = _LINE.match(text, end)
    return begin, rest.end() if rest else len(text)


def _dash(text: str, node: Node) -> str:
    """Return what stands before an item on its line, which must be a dash alone."""
    start = _span(text, node)[0]
    begin = max(text.rfind("\n", 0, start), text.rfind("\r", 0, start)) + 1
    before = text[begin:start]
    if before.strip() != "-":
        raise CannotRewriteError("the list is written in an unusual way")
    return before


def _in_flow(parents: list[Node]) -> bool:
    return any(bool(getattr(node, "flow_style", False)) for node in parents)


def _line_end(text: str) -> str:
    found = re.search("\r\n|\n|\r", text)
    return found[0] if found else "\n"


def _inline(value: str, style: str, *, number: bool, flow: bool) -> str:
    """Return a value as it stands on a line: in the old quotes, without any where it can, else in double ones."""
    if number:
        return value
    if "\n" in value:
        raise CannotRewriteError("its new words go over several lines")
    if style == "'":
        return "'" + value.replace("'", "''") + "'"
    plain = _PLAIN.fullmatch(value) and not _NOT_WORDS.fullmatch(value) and not value.endswith((":", " "))
    if not style and plain and not (flow and re.search(r"[,\[\]{}]", value)):
        return value
    return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _ends(value: str) -> str:
    """Return the ends of lines with which a value ends."""
    return value[len(value.rstrip("\n")) :]


def _over_lines(written: str, old: str) -> str:
    """Return a value on as many lines as it takes where the old one went over several."""
    lines = old.splitlines()
    if len(lines) < 2 or not all(line.strip() for line in lines):
        return written
    indent = lines[1][: len(lines[1]) - len(lines[1].lstrip(" "))]
    return f"{_line_end(old)}{indent}".join(_wrapped(written, [line.strip() for line in lines]))


def _wrapped(words: str, old: list[str]) -> list[str]:
    """Return words on lines: the old lines as far as they stay, the rest no wider than these.

    One line or two do not tell how wide their author writes.
    """
    width = max(*map(len, old), 0 if len(old) > _FEW else _USUAL_WIDTH)
    if len(old) <= _FEW and len(words) <= width:
        return [words]
    kept: list[str] = []
    for line in old:
        if words == line or not words.startswith(f"{line} "):
            break
        kept.append(line)
        words = words[len(line) + 1 :]
    return [*kept, *textwrap.wrap(words, width, break_long_words=False, break_on_hyphens=False)]


def _block(text: str, start: int, end: int, value: str) -> str:
    """Return a block of lines in the old indent, below its old head."""
    old = text[start:end]
    lines = _LINE.findall(old)
    head, body = lines[0], [line for line in lines[1:] if line.strip()]
    if not body:
        raise CannotRewriteError("it holds no words")
    indent = body[0][: len(body[0]) - len(body[0].lstrip(" "))]
    if head.strip().startswith(">") and "\n" in value.strip("\n"):
        raise CannotRewriteError("its lines are folded")
    ending = _line_end(text)
    lines = value.rstrip("\n").split("\n")
    if head.strip().startswith(">"):
        lines = _wrapped(lines[0], [line.strip() for line in body])
    words = "".join(f"{indent}{line}{ending}" if line.strip() else ending for line in lines)
    rest = old.rstrip("\r\n \t")
    tail = old[len(rest) :]
    first = re.match("\r\n|\n|\r", tail)
    return f"{head}{words}{tail[first.end() :] if first else ''}"


def _checked(old: str, new: str, path: str, field: FieldPath, value: str | int | None, *, insert: bool = False) -> str:
    """Return the new text if it says what the old one says but for the change; else refuse."""
    expected = _changed(_data(old, path), field, value, insert)
    try:
        found = _data(new, path)
    except Exception as problem:
        raise CannotRewriteError("it is written in an unusual way") from problem
    if found != expected:
        raise CannotRewriteError("it is written in an unusual way")
    return new


def _changed(data: object, field: FieldPath, value: str | int | None, insert: bool) -> object:
    """Return data with a value set or put in at a field, or taken out for None."""
    step, *rest = field
    copy: Any = data.copy() if isinstance(data, dict | list) else data
    if rest:
        copy[step] = _changed(copy[step], tuple(rest), value, insert)
    elif value is None:
        del copy[step]
    elif insert:
        copy.insert(step, value)
    else:
        copy[step] = value
    return copy
