"""What a curriculum wants of its checks: which rules weigh more, weigh less, or stay silent, and why."""

from typing import Literal

from lessonkit.records.record import Part, Record

Weight = Literal["error", "warning", "advice", "off"]


class Setting(Part, frozen=True, kw_only=True):
    """How much a rule's findings matter here, ``off`` for not at all, and the reason."""

    level: Weight
    because: str


class Settings(Record, frozen=True, kw_only=True):
    """The settings of a curriculum's checks: rule name to setting."""

    rules: dict[str, Setting]
