"""Looking up what was worked out for a value last time, without comparing its fields."""

from typing import Generic, TypeVar

T = TypeVar("T")


class Same(Generic[T]):
    """Stands for a value as a key of a small cache; it is equal to the same value only, not to one that looks alike."""

    __slots__ = ("value",)

    def __init__(self, value: T) -> None:
        self.value = value

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.value is other.value

    def __hash__(self) -> int:
        return id(self.value)
