"""Words of a page back to the record fields that they came from, and back to Markdown."""

import re
from collections.abc import Sequence
from difflib import SequenceMatcher

from lessonkit.document.markdown import read_inline
from lessonkit.document.model import plain
from lessonkit.records.unit import LETTER_WORDS
from lessonkit.writers.typography import bind_units

_IN_BRACES = re.compile("(" + "|".join(f"{{{name}}}" for name in LETTER_WORDS) + ")")
_TOKENS = re.compile(r"\s+|[^\s\w]|\w+")
_SPACES = re.compile(r"\s")
_SPECIAL = re.compile(r"([\\*_`\[\]<>&])")


def plain_words(markdown: str) -> str:
    """Return the words of a record's one-line field as a page shows them."""
    return bind_units(plain(read_inline(markdown)))


def flat(words: str) -> str:
    """Return words with plain spaces, single ones."""
    return " ".join(words.split())


def split_by_fields(
    old: str, new: str, values: Sequence[str], *, loosely: bool = False
) -> list[tuple[str, str]] | None:
    """Return for each value of the old words its words there and those that stand in its place now.

    A value that stands otherwise on the page, such as one with its meters in feet, gives empty words for both. None
    where no value is in the old words, or where words between the values were changed; ``loosely`` only where the
    words next to a value were.
    """
    same = _keeps_its_ends if loosely else _reads_alike
    spans = _spans(old, values)
    if not any(spans):
        return None
    starts, ends = _places(old, new)
    found: list[tuple[str, str]] = []
    last_old, last_new = 0, 0
    for span in spans:
        if span is None:
            found.append(("", ""))
            continue
        begin, end = span
        here, there = starts[begin], ends[end]
        if not same(old[last_old:begin], new[last_new:here]) or there < here:
            return None
        found.append((old[begin:end], new[here:there]))
        last_old, last_new = end, there
    return found if same(old[last_old:], new[last_new:]) else None


def how_many(words: str, values: Sequence[str]) -> int:
    """Return how many of the values stand in words, one after the other."""
    return sum(span is not None for span in _spans(words, values))


def _reads_alike(old: str, new: str) -> bool:
    return flat(old) == flat(new)


def _keeps_its_ends(old: str, new: str) -> bool:
    """Tell whether words begin and end as they did, whatever has become of those between."""
    before, after = _TOKENS.findall(flat(old)), _TOKENS.findall(flat(new))
    return before == after or (bool(before) and bool(after) and (before[0], before[-1]) == (after[0], after[-1]))


def filled_in(written: str, said: str) -> tuple[str, ...] | None:
    """Return what stands on a page for a letter's words in braces; None where the page does not say what is written."""
    pattern = "(.+?)".join(re.escape(piece) for piece in _IN_BRACES.split(flat(written))[::2])
    found = re.fullmatch(pattern, flat(said))
    return found.groups() if found else None


def refilled(written: str, old: str, new: str) -> str | None:
    """Return new words with a letter's words in braces where the old page had filled something in.

    What was filled in and is other words by now stays as these. None where the old page is not of what is written.
    """
    values = filled_in(written, old)
    if values is None:
        return None
    made, rest = "", flat(new)
    for name, value in zip(_IN_BRACES.findall(written), values, strict=True):
        before, is_there, after = rest.partition(value)
        if is_there:
            made, rest = f"{made}{before}{name}", after
    return made + rest


def taken_along(written: str, old: str, new: str, beside: Sequence[str]) -> list[str]:
    """Return lines beside a new one with words in braces put back that stood in the old line and stand there now."""
    lines = list(beside)
    for name, value in zip(_IN_BRACES.findall(written), filled_in(written, old) or (), strict=False):
        place = next((place for place, line in enumerate(lines) if value in flat(line)), None)
        if place is not None and value not in flat(new):
            lines[place] = flat(lines[place]).replace(value, name, 1)
    return lines


def to_markdown(written: str, new: str) -> str | None:
    """Return Markdown that reads as the new words, with the stress of the old Markdown kept; None where that fails."""
    new = flat(new)
    old = flat(plain_words(written))
    head = len(_common(old, new))
    tail = len(_common(old[head:][::-1], new[head:][::-1]))
    gone, come = old[head : len(old) - tail], new[head : len(new) - tail]
    candidates = [_escaped(new)] if old == flat(written) else []
    for reach in range(max(len(old), 1)):
        start, stop = max(head - reach, 0), min(len(old) - tail + reach, len(old))
        around = old[start:stop]
        if around and written.count(around) == 1:
            changed = old[start:head] + _escaped(come) + old[len(old) - tail : stop]
            candidates.append(written.replace(around, changed))
            break
    if not gone and not come:
        return written
    return next((each for each in candidates if flat(plain_words(each)) == flat(bind_units(new))), None)


def _escaped(words: str) -> str:
    """Return words that Markdown would not take for marks."""
    return words if flat(plain(read_inline(words))) == flat(words) else _SPECIAL.sub(r"\\\1", words)


def _common(one: str, other: str) -> str:
    length = 0
    while length < min(len(one), len(other)) and one[length] == other[length]:
        length += 1
    return one[:length]


def _spans(words: str, values: Sequence[str]) -> list[tuple[int, int] | None]:
    """Return where values stand in words, one after the other; a page may leave out a value's full stop."""
    spans: list[tuple[int, int] | None] = []
    last = 0
    words = _SPACES.sub(" ", words)
    for value in values:
        shown = _SPACES.sub(" ", plain_words(value).strip())
        for version in (shown, shown.rstrip(".")):
            place = words.find(version, last)
            if version and place >= 0:
                spans.append((place, place + len(version)))
                last = place + len(version)
                break
        else:
            spans.append(None)
    return spans


def _places(old: str, new: str) -> tuple[dict[int, int], dict[int, int]]:
    """Return where every place in the old words lies in the new ones, as the beginning of a span and as its end."""
    first, second = _TOKENS.findall(old), _TOKENS.findall(new)
    at_old, at_new = _offsets(first), _offsets(second)
    starts: dict[int, int] = {}
    ends: dict[int, int] = {}
    for tag, i1, i2, j1, j2 in SequenceMatcher(None, first, second, autojunk=False).get_opcodes():
        for token in range(i1, i2 + 1):
            offset = min(token - i1, j2 - j1) if tag == "equal" else (0 if token == i1 else j2 - j1)
            place = at_new[j1 + offset]
            starts[at_old[token]] = min(starts.get(at_old[token], place), place)
            ends[at_old[token]] = max(ends.get(at_old[token], place), place)
        if tag == "insert":
            starts.setdefault(at_old[i1], at_new[j1])
            ends[at_old[i1]] = max(ends.get(at_old[i1], 0), at_new[j2])
    starts.setdefault(0, 0)
    ends.setdefault(0, 0)
    for place in range(len(old) + 1):
        starts.setdefault(place, starts[max(each for each in starts if each <= place)])
        ends.setdefault(place, ends[min((each for each in ends if each >= place), default=max(ends))])
    return starts, ends


def _offsets(tokens: Sequence[str]) -> list[int]:
    offsets = [0]
    for token in tokens:
        offsets.append(offsets[-1] + len(token))
    return offsets
