"""How wide words are in the letters of a drawing, before any program has set them."""

_NARROW = frozenset("fijlrtI.,:;'|!()[] ")
_WIDE = frozenset("mwMW@%")


def words_width(words: str, points: float) -> float:
    """Return how wide words are at most in a plain sans-serif letter such as Arial or Liberation Sans, in points."""
    return points * sum(0.34 if letter in _NARROW else 0.95 if letter in _WIDE else 0.58 for letter in words)
