"""Differences of look between two lines in a teacher's words."""

from collections.abc import Iterator
from typing import NamedTuple

from lessonkit.writers.word.line import FRAMED_ANEW, Line

_LONGEST = 60
_DRAWN = ("picture", "drawing")
_ROUNDED = 0.03
_ANEW = 0.4
_FORMS = ("style", "list", "align", "new page", "shaded", "joined")


class Says(NamedTuple):
    """A sentence, and in ``how`` what it has in common with others of its kind."""

    sentence: str
    how: str


def shown(words: str) -> str:
    """Return words in quotation marks; a line end or tab in them becomes a space."""
    flat = " ".join(words.split())
    return f"\u201c{flat}\u201d" if flat else "nothing"


def short(words: str) -> str:
    """Return the beginning of words where they are long."""
    flat = " ".join(words.split())
    if len(flat) <= _LONGEST:
        return flat
    return f"{flat[:_LONGEST].rpartition(' ')[0] or flat[:_LONGEST]} ..."


def look_says(old: Line, new: Line, tolerance: int) -> Iterator[Says]:
    """Tell what differs in the look of a whole line."""
    if _apart(old, new, tolerance):
        yield _size_says(old)
    if old.kind == "picture" and old.marks and new.marks and old.marks != new.marks:
        yield Says("A picture is another one now.", "")
    if old.kind == "section" and old.look != new.look:
        yield Says("The words of the page stand in another number of columns.", "")
    if old.kind != "p":
        return
    said = shown(short(new.words))
    for name, one, other in zip(_FORMS, old.look.split("|"), new.look.split("|"), strict=False):
        if one != other:
            yield Says(f"The line {said} {_form_says(name, one, other)}.", f"{name} {one} {other}")


def mark_says(old: Line, new: Line) -> Iterator[Says]:
    """Tell which words of a line look otherwise now; where the words differ, which looks are new in it.

    Words in an empty line look as they look: there was nothing before.
    """
    if old.marks == new.marks or not old.words.strip():
        return
    if old.words != new.words:
        known = {look for _, look in old.marks}
        for start, end, look in _stretches(new):
            if look not in known:
                yield from _differences(new.words[start:end], old.marks[0][1] if old.marks else "", look)
        return
    before, after = ([look for length, look in line.marks for _ in range(length)] for line in (old, new))
    start = 0
    for place in range(1, len(after) + 1):
        if place == len(after) or (before[place], after[place]) != (before[start], after[start]):
            if before[start] != after[start]:
                yield from _differences(new.words[start:place], before[start], after[start])
            start = place


def _stretches(line: Line) -> Iterator[tuple[int, int, str]]:
    start = 0
    for length, look in line.marks:
        yield start, start + length, look
        start += length


def _differences(words: str, old: str, new: str) -> Iterator[Says]:
    before, after = (dict(each.split(":", 1) for each in look.split(";") if each) for look in (old, new))
    for name in sorted(before.keys() | after.keys()):
        one, other = before.get(name, ""), after.get(name, "")
        if one != other:
            yield Says(f"{shown(short(words))} {_mark_says(name, one, other)}.", f"{name} {one} {other}")


def _mark_says(name: str, old: str, new: str) -> str:
    plain = {
        "bold": "bold",
        "italic": "in italics",
        "underlined": "underlined",
        "struck": "crossed out",
        "caps": "in capitals",
        "small": "in small capitals",
        "hidden": "hidden",
    }
    if name in plain:
        return f"is {'now' if new else 'no longer'} {plain[name]}"
    if name == "marked":
        return "is now highlighted" if new else "is no longer highlighted"
    if name == "size":
        return f"is {'larger' if _number(new) > _number(old) else 'smaller'} than it was"
    if name == "raised":
        return "is now raised or lowered" if new else "is no longer raised or lowered"
    if name == "link":
        return f"now leads to {new}" if new else "is no longer a link"
    return f"has another {name}"


def _form_says(name: str, old: str, new: str) -> str:
    if name == "style":
        return f"has the style {new!r} instead of {old!r}"
    if name == "list":
        return "is no longer in a list" if not new else "is now in a list" if not old else "is in another kind of list"
    if name == "align":
        return f"is now aligned { ({'both': 'to both sides', 'center': 'in the middle'}.get(new, new) or 'left') }"
    if name == "new page":
        return "now begins a new page" if new else "no longer begins a new page"
    if name == "joined":
        return "is joined with the next one" if new else "is no longer joined with the next one"
    return "has another background"


def _size_says(line: Line) -> Says:
    if line.kind == "section":
        return Says("The size or the margins of the page were changed.", "")
    if line.kind == "table":
        return Says("The columns of a table were made wider or narrower.", "")
    if line.kind in _DRAWN:
        return Says(f"A {line.kind} was made larger or smaller.", "")
    return Says(f"The line {shown(short(line.words))} is set in or spaced otherwise.", "spacing")


def _apart(old: Line, new: Line, tolerance: int) -> bool:
    """Tell whether measures differ by more than programs round them; drawings are framed anew."""
    if len(old.sizes) != len(new.sizes):
        return True
    both = zip(old.sizes, new.sizes, strict=True)
    if old.kind in _DRAWN:
        share = _ANEW if old.kind == "drawing" and FRAMED_ANEW in (old.look, new.look) else _ROUNDED
        return any(abs(one - other) > share * one for one, other in both)
    return any(abs(one - other) > tolerance for one, other in both)


def _number(written: str) -> float:
    try:
        return float(written)
    except ValueError:
        return 0.0
