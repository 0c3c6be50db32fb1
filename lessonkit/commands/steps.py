"""A field in Markdown, such as the steps of an activity or a letter, with lines reworded, added and taken out."""

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from lessonkit.commands.spans import flat, plain_words, to_markdown
from lessonkit.document.markdown import leaves

_NUMBER = re.compile(r"(\s*)([0-9]+)([.)] +)")
_HEADING = re.compile(r"\s*#{1,6} +")
_MARKER = re.compile(r"\s*(?:[0-9]+[.)]|[-*+]) +")


class _Moved(NamedTuple):
    """What a line that stands elsewhere now says in Markdown, and the whole line that it stood on."""

    written: str
    line: str


def leaf_words(steps: str) -> list[str]:
    """Return the words of every line of steps, as a page shows them."""
    return [flat(plain_words(words)) for _, _, words in leaves(steps)]


def has_inner_lists(steps: str) -> bool:
    """Tell whether an item of a list holds a list of its own."""
    return any(line[:1].isspace() and _MARKER.match(line) for line in steps.split("\n"))


def with_changes(
    steps: str, reworded: Mapping[int, str], gone: Sequence[int], come: Mapping[int, Sequence[str]]
) -> str | None:
    """Return steps with lines changed: by their place (from 0) reworded, gone, and come behind a place (-1: first).

    None where the steps are written so that this cannot be done safely.
    """
    found = leaves(steps)
    lines = steps.split("\n")
    places = [place for place in (*gone, *reworded) if place < len(found)]
    moved = {flat(plain_words(found[place][2])): _Moved(found[place][2], lines[found[place][0]]) for place in places}
    expected: list[str] = [flat(words) for words in come.get(-1, ())]
    made: list[str] = lines[: found[0][0]] if found else []
    for words in come.get(-1, ()):
        made += reversed(_like(lines[found[0][0]], words, moved))
    for place, (start, end, written) in enumerate(found):
        if place not in gone:
            body: list[str] | None = lines[start:end]
            if place in reworded:
                body = _reworded(lines[start:end], written, reworded[place], moved)
            if body is None:
                return None
            made += body
            expected.append(flat(reworded.get(place, plain_words(written))))
        for words in come.get(place, ()):
            made += _like(lines[start], words, moved)
        expected += [flat(words) for words in come.get(place, ())]
        following = found[place + 1][0] if place + 1 < len(found) else len(lines)
        rest = lines[end:following]
        closes_gap = place in gone and place not in come and rest and not (made and made[-1].strip())
        made += rest[1:] if closes_gap else rest
    result = _renumbered("\n".join(made))
    return result if leaf_words(result) == [flat(plain_words(words)) for words in expected] else None


def _reworded(lines: list[str], written: str, new: str, moved: Mapping[str, _Moved]) -> list[str] | None:
    from_elsewhere = moved.get(flat(new))
    words = from_elsewhere.written if from_elsewhere else to_markdown(written, new)
    head = written.split("\n", maxsplit=1)[0]
    if words is None or not lines[0].endswith(head):
        return None
    return [f"{lines[0].removesuffix(head)}{words}"]


def _like(line: str, words: str, moved: Mapping[str, _Moved]) -> list[str]:
    """Return a line that begins as another does, with its indent and its number or dash; a paragraph after a gap.

    ``moved`` are lines that stood elsewhere, as they were written there, by their words.
    """
    found = _MARKER.match(line)
    from_elsewhere = moved.get(flat(words))
    written = from_elsewhere.written if from_elsewhere else to_markdown("", words) or words
    if from_elsewhere and (heading := _HEADING.match(from_elsewhere.line)):
        return ["", f"{heading[0]}{written}"]
    return [f"{found[0]}{written}"] if found else ["", written]


def _renumbered(steps: str) -> str:
    """Return steps whose numbers count on without a gap in every list."""
    counts: dict[int, int] = {}
    lines = []
    for line in steps.split("\n"):
        found = _NUMBER.match(line)
        if found is None:
            lines.append(line)
            continue
        depth = len(found[1])
        counts = {known: count for known, count in counts.items() if known <= depth}
        counts[depth] = counts[depth] + 1 if depth in counts else int(found[2]) if depth else 1
        lines.append(f"{found[1]}{counts[depth]}{found[3]}{line[found.end() :]}")
    return "\n".join(lines)
