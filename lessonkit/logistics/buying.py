"""What to buy: the equipment still missing when everything that may stand in does so."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from lessonkit.logistics.equipment import Shortage
from lessonkit.logistics.equipment_day import item_counted
from lessonkit.logistics.words import listed
from lessonkit.records.equipment import Item


@dataclass(frozen=True, slots=True)
class Purchase:
    """How many of an item to buy, and why, in a sentence."""

    item: str
    count: int
    says: str


def to_buy(shortages: Iterable[Shortage], items: Mapping[str, Item]) -> tuple[Purchase, ...]:
    """Return what to buy for a unit's or a year's shortages, by item; nothing for an item whose stand-ins suffice."""
    return tuple(
        Purchase(short.item, short.still_short, purchase_says(short, items)) for short in shortages if short.still_short
    )


def purchase_says(short: Shortage, items: Mapping[str, Item]) -> str:
    """Say what is short and what covers it, in one sentence."""
    has = str(short.owned) if short.owned else "none"
    facts = [f"{short.needed} needed", f"{has} owned"]
    if short.stand_ins:
        stand = listed([item_counted(item, count, items) for item, count in short.stand_ins])
        facts.append(f"{stand} standing in")
    bought = item_counted(short.item, short.still_short, items)
    opening = f"Buy {bought}" if short.still_short else f"Buy no {_plural(short.item, items)}"
    instead = f"; until then use {' or '.join(short.improvise)}" if short.still_short and short.improvise else ""
    return f"{opening} ({', '.join(facts)}){instead}."


def _plural(item: str, items: Mapping[str, Item]) -> str:
    return items[item].plural if item in items else item
