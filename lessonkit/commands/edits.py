"""Edits of record files: what is to change where, put together file by file and shown before anything is written."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from lessonkit.commands.repair import Repair
from lessonkit.loading.file import load_content
from lessonkit.loading.places import locate
from lessonkit.loading.rewrite import CannotRewriteError, insert_item, remove_item, set_value
from lessonkit.source.finding import Level
from lessonkit.source.location import FieldPath, Location


@dataclass(frozen=True, slots=True)
class Edit:
    """One change of a record's file: a value set, an item put into a list before ``field``, or an item taken out."""

    path: str
    field: FieldPath
    how: Literal["set", "insert", "remove"]
    value: str | int = ""
    says: str = ""

    def __str__(self) -> str:
        return f"{self.place}: {self.says}"

    @property
    def place(self) -> Location:
        """Where the file changes: the value, or the list that gets a new item."""
        return locate(self.path, self.field if self.how != "insert" else self.field[:-1])


@dataclass(frozen=True, slots=True)
class Outcome:
    """The files as they would be, the edits in them, and a sentence for every edit that cannot be made."""

    files: tuple[Repair, ...]
    made: tuple[Edit, ...]
    left: tuple[str, ...]


def apply_edits(edits: Iterable[Edit]) -> Outcome:
    """Put edits together. One that does not go is left out with a sentence, and so is a file it would break."""
    by_path: dict[str, list[Edit]] = {}
    for edit in dict.fromkeys(edits):
        by_path.setdefault(edit.path, []).append(edit)
    files: list[Repair] = []
    made: list[Edit] = []
    left: list[str] = []
    for path in sorted(by_path):
        before = Path(path).read_bytes()
        text, done = before.decode("utf-8"), []
        for edit in sorted(by_path[path], key=_order):
            try:
                text = _apply(text, edit)
                done.append(edit)
            except CannotRewriteError as why:
                left.append(f"{edit} This cannot be written for you: {why}.")
        if _errors(text.encode(), path) > _errors(before, path):
            left += [f"{edit} This would leave the record with an error." for edit in done]
        elif done:
            files.append(Repair(path, before, text.encode(), len(done)))
            made += sorted(done, key=lambda edit: edit.place)
    return Outcome(tuple(files), tuple(made), tuple(left))


def _order(edit: Edit) -> tuple[bool, str, int]:
    """Values first; then items from the last to the first, so that the places of the others stay."""
    last = edit.field[-1]
    return edit.how != "set", "/".join(map(str, edit.field[:-1])), -last if isinstance(last, int) else 0


def _apply(text: str, edit: Edit) -> str:
    if edit.how == "set":
        return set_value(text, edit.path, edit.field, edit.value)
    if edit.how == "remove":
        return remove_item(text, edit.path, edit.field)
    place = edit.field[-1]
    return insert_item(text, edit.path, edit.field[:-1], int(place), str(edit.value))


def _errors(content: bytes, path: str) -> int:
    return sum(finding.level is Level.ERROR for finding in load_content(content, path).findings)
