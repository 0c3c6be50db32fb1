"""The equipment catalogue: what items there are, whichever school owns them."""

from typing import Literal

from lessonkit.records.measures import GradeBand
from lessonkit.records.record import Part, Record

Symbol = Literal["cone", "spot", "hoop", "ball", "net", "line", "target", "box", "bench", "mat", "goal", "rope"]


class StandIn(Part, frozen=True, kw_only=True):
    """Another item of the catalogue, or something from outside it, that may be used instead."""

    item: str | None = None
    use: str | None = None
    note: str | None = None


class Item(Part, frozen=True, kw_only=True):
    """A kind of equipment. ``swung`` and ``thrown`` say what a safety distance is needed for.

    ``never`` lists, in sentences, what the item must not be used for. ``grades`` limits who may use it.
    """

    id: str
    title: str
    plural: str
    unit: Literal["each", "pair", "set", "metre", "roll"] = "each"
    stand_ins: tuple[StandIn, ...] = ()
    never: tuple[str, ...] = ()
    grades: GradeBand | None = None
    swung: bool = False
    thrown: bool = False
    symbol: Symbol | None = None


class Catalogue(Record, frozen=True, kw_only=True):
    """A list of items, found by their ids."""

    items: tuple[Item, ...]
