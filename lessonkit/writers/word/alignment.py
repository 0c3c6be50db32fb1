"""Which lines of two sequences belong together: those that occur once in both come first, the gaps follow."""

from bisect import bisect_left
from collections import Counter
from collections.abc import Hashable, Iterator, Sequence
from difflib import SequenceMatcher
from typing import Generic, NamedTuple, TypeVar

Key = TypeVar("Key", bound=Hashable)
Block = tuple[int, int, int, int]
"""A stretch that differs: from and to in the old sequence, from and to in the new one."""


class _Span(NamedTuple):
    """A stretch of the old sequence and one of the new."""

    left: int
    left_end: int
    right: int
    right_end: int


def aligned(old: Sequence[Key], new: Sequence[Key]) -> tuple[list[tuple[int, int]], list[Block]]:
    """Return the pairs of equal places, in order, and the stretches between them that differ."""
    pairs = list(_Pairing(old, new).pairs(_Span(0, len(old), 0, len(new))))
    blocks: list[Block] = []
    left, right = 0, 0
    for one, other in (*pairs, (len(old), len(new))):
        if one > left or other > right:
            blocks.append((left, one, right, other))
        left, right = one + 1, other + 1
    return pairs, blocks


class _Pairing(Generic[Key]):
    def __init__(self, old: Sequence[Key], new: Sequence[Key]) -> None:
        self._old = old
        self._new = new

    def pairs(self, span: _Span) -> Iterator[tuple[int, int]]:
        """Yield the pairs of a span: what begins and ends alike, and what lies between."""
        left, left_end, right, right_end = span
        while left < left_end and right < right_end and self._old[left] == self._new[right]:
            yield left, right
            left, right = left + 1, right + 1
        same = 0
        most = min(left_end - left, right_end - right)
        while same < most and self._old[left_end - same - 1] == self._new[right_end - same - 1]:
            same += 1
        yield from self._between(_Span(left, left_end - same, right, right_end - same))
        yield from ((left_end - same + place, right_end - same + place) for place in range(same))

    def _between(self, span: _Span) -> Iterator[tuple[int, int]]:
        left, left_end, right, right_end = span
        if left == left_end or right == right_end:
            return
        anchors = self._anchors(span)
        if not anchors:
            matcher = SequenceMatcher(None, self._old[left:left_end], self._new[right:right_end], autojunk=False)
            for one, other, size in matcher.get_matching_blocks():
                yield from ((left + one + place, right + other + place) for place in range(size))
            return
        for one, other in anchors:
            yield from self.pairs(_Span(left, one, right, other))
            yield one, other
            left, right = one + 1, other + 1
        yield from self.pairs(_Span(left, left_end, right, right_end))

    def _anchors(self, span: _Span) -> list[tuple[int, int]]:
        """Return the places of what occurs once in both stretches, the longest run of them that keeps its order."""
        old, new = self._old[span.left : span.left_end], self._new[span.right : span.right_end]
        seen, known = Counter(old), Counter(new)
        places = {key: place for place, key in enumerate(new, span.right) if known[key] == 1}
        once = [(place, places[key]) for place, key in enumerate(old, span.left) if seen[key] == 1 and key in places]
        return _rising(once)


def _rising(pairs: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Return the longest run of pairs whose second places rise as the first ones do."""
    ends: list[int] = []
    last: list[int] = []
    before: list[int] = []
    for number, (_, place) in enumerate(pairs):
        length = bisect_left(ends, place)
        before.append(last[length - 1] if length else -1)
        ends[length : length + 1] = [place]
        last[length : length + 1] = [number]
    run: list[tuple[int, int]] = []
    number = last[-1] if last else -1
    while number >= 0:
        run.append(pairs[number])
        number = before[number]
    return run[::-1]
