"""What a unit of each wish weighs against the others, and how a teacher's choice of word changes that."""

from collections.abc import Mapping
from typing import Final

from lessonkit.records.unit import Weight, Wish

PRICES: Final[Mapping[Wish, int]] = {
    "spacing": 120,
    "late-assessment": 80,
    "rising-challenge": 80,
    "variety": 60,
    "few-changeovers": 20,
    "usual-minutes": 15,
    "moving": 1,
    "further-outcomes": 60,
    "favourites": 80,
    "calm-closing": 60,
    "varied-groups": 40,
    "back-to-back": 20,
}
"""Points that a unit of a wish costs at the weight ``low``: a class standing for a minute is 20 units of ``moving``."""
OFF_UNASKED: Final[frozenset[Wish]] = frozenset({"back-to-back"})
"""Wishes that count only where a request names them."""
LEVELS: Final[Mapping[Weight, int]] = {"off": 0, "low": 1, "normal": 2, "high": 4}
"""What the price of a wish is multiplied by."""


def weights(wishes: Mapping[Wish, Weight]) -> dict[str, int]:
    """Return the cost of a unit of each wish; one that is not named has the weight ``normal``, or is off by itself."""
    return {wish: price * LEVELS[wishes.get(wish, _unasked(wish))] for wish, price in PRICES.items()}


def _unasked(wish: Wish) -> Weight:
    return "off" if wish in OFF_UNASKED else "normal"
