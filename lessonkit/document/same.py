"""A record as the key of something that is kept: known again if it is the very same one."""

from typing import Generic, TypeVar

Record = TypeVar("Record")


class Same(Generic[Record]):
    """A record by which what was made of it is known again; records hold what has no hash."""

    __slots__ = ("record",)

    def __init__(self, record: Record) -> None:
        self.record = record

    def __hash__(self) -> int:
        return id(self.record)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.record is other.record
