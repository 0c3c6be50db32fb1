"""Keys of paragraphs: the record fields that their words come from, so that an edit on paper finds its record.

A key names fields one after the other, in the order of their words: ``activity/bridge/cues/0 activity/bridge/cues/1``.
A field of an activity is named as its author knows it; which grade's version it stands in is settled by the class.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from lessonkit.document.model import Block, Heading, ListBlock, Paragraph, Role


def field_key(kind: str, record: str, *path: str | int) -> str:
    """Return the key of one field: kind and id of the record, and the way to the value."""
    return "/".join((kind, record, *map(str, path)))


def activity_key(activity: str, *path: str | int) -> str:
    """Return the key of an activity's field."""
    return field_key("activity", activity, *path)


def listed(kind: str, record: str, *path: str, words: Sequence[str]) -> dict[str, str]:
    """Return the sentences of a field, each with its key; of two that read alike the first."""
    keyed: dict[str, str] = {}
    for place, said in enumerate(words):
        keyed.setdefault(said, field_key(kind, record, *path, place))
    return keyed


def slot_key(lesson: int, place: int, field: str) -> str:
    """Return the key of a field of an activity's place (from 0) in a lesson (its number from 1) of the plan."""
    return field_key("lesson", str(lesson), "activities", place, field)


def joint_key(fields: Iterable[str]) -> str | None:
    """Return the key of a paragraph that several fields share; None for none."""
    return " ".join(fields) or None


def leaf_keyed(blocks: tuple[Block, ...], key: str) -> tuple[Block, ...]:
    """Return the blocks of a Markdown field with ``key/0``, ``key/1`` ... on its paragraphs and headings in order."""
    return _Leaves(key).blocks(blocks)


class _Leaves:
    def __init__(self, key: str) -> None:
        self._key = key
        self._next = 0

    def blocks(self, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
        return tuple(self._block(block) for block in blocks)

    def _block(self, block: Block) -> Block:
        if isinstance(block, ListBlock):
            return replace(block, items=tuple(self.blocks(item) for item in block.items))
        if isinstance(block, Heading) or (isinstance(block, Paragraph) and block.role is not Role.CODE):
            self._next += 1
            return replace(block, key=f"{self._key}/{self._next - 1}")
        return block
