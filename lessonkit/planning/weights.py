"""What a unit of each wish weighs against the others, and how a teacher's choice of word changes that."""

from collections.abc import Mapping
from typing import Final

from lessonkit.records.unit import Weight, Wish

PRICES: Final[Mapping[Wish, int]] = {
    "spacing": 60,
    "rising-challenge": 40,
    "variety": 30,
    "few-changeovers": 10,
    "usual-minutes": 5,
    "moving": 1,
    "further-outcomes": 30,
    "favourites": 40,
    "calm-closing": 30,
    "varied-groups": 20,
}
"""Points a unit of a wish at the weight ``normal`` costs: a child standing for a minute is 20 points."""
_LEVELS: Final[Mapping[Weight, int]] = {"off": 0, "low": 1, "normal": 2, "high": 4}


def weights(wishes: Mapping[Wish, Weight]) -> dict[str, int]:
    """Return the cost of a unit of each wish; a wish that is not named has the weight ``normal``."""
    return {wish: price * _LEVELS[wishes.get(wish, "normal")] for wish, price in PRICES.items()}
