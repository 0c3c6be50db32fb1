"""A sentence about one value of one record; whoever has the files turns it into a place."""

from dataclasses import dataclass

from lessonkit.source.location import FieldPath


@dataclass(frozen=True, slots=True)
class Said:
    """What planning has to say: the kind and id of the record it rests on, the field, and one sentence."""

    kind: str
    record: str
    field: FieldPath
    says: str
