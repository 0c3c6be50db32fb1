"""What a unit of each wish for the year weighs against the others."""

from collections.abc import Mapping
from typing import Final

from lessonkit.planning.weights import LEVELS
from lessonkit.records.unit import Weight
from lessonkit.records.year import YearWish

PRICES: Final[Mapping[YearWish, int]] = {
    "even-load": 1,
    "changing-families": 60,
    "few-setups": 10,
    "unbroken": 40,
    "spare-weeks": 80,
    "further-outcomes": 20,
    "something-to-report": 120,
    "few-moves": 40,
}
"""Points that a unit of a wish costs at the weight ``low``: a week of moderate effort is 20 units of ``even-load``."""


def year_weights(wishes: Mapping[YearWish, Weight]) -> dict[str, int]:
    """Return the cost of a unit of each wish; a wish that is not named has the weight ``normal``."""
    return {wish: price * LEVELS[wishes.get(wish, "normal")] for wish, price in PRICES.items()}
