"""What a unit of each wish weighs against the others, and how a teacher's choice of word changes that."""

from collections.abc import Mapping
from typing import Final

from lessonkit.records.unit import Weight, Wish

PRICES: Final[Mapping[Wish, int]] = {
    "spacing": 120,
    "rising-challenge": 80,
    "variety": 60,
    "few-changeovers": 10,
    "usual-minutes": 15,
    "moving": 1,
    "further-outcomes": 60,
    "favourites": 80,
    "calm-closing": 60,
    "varied-groups": 40,
}
"""Points that a unit of a wish costs at the weight ``low``: a class standing for a minute is 20 units of ``moving``."""
LEVELS: Final[Mapping[Weight, int]] = {"off": 0, "low": 1, "normal": 2, "high": 4}
"""What the price of a wish is multiplied by."""


def weights(wishes: Mapping[Wish, Weight]) -> dict[str, int]:
    """Return the cost of a unit of each wish; a wish that is not named has the weight ``normal``."""
    return {wish: price * LEVELS[wishes.get(wish, "normal")] for wish, price in PRICES.items()}
