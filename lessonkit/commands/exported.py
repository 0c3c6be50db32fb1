"""A folder of exported files that never loses what someone changed in them."""

import hashlib
import json
from pathlib import Path
from typing import Final

from lessonkit.source.safe_file import write_whole

LIST_NAME: Final = ".exported.json"
"""The list of what was written, by file name and SHA-256, so that a changed file is known."""


class Folder:
    """An export folder. ``put`` writes a file unless someone has changed the old one; ``report`` says what was done."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._list = path / LIST_NAME
        self._known: dict[str, str] = _read_list(self._list)
        self._written: list[str] = []
        self._kept: list[tuple[str, str]] = []

    def put(self, name: str, content: bytes) -> None:
        """Write a file whole; one that was changed since it was written stays, and the new one stands beside it."""
        target = self.path / name
        if target.exists() and _digest(target.read_bytes()) not in (self._known.get(name), _digest(content)):
            beside = target.with_name(f"{target.stem}.new{target.suffix}")
            write_whole(beside, content)
            self._kept.append((target.as_posix(), beside.as_posix()))
            return
        write_whole(target, content)
        self._written.append(target.as_posix())
        self._known[name] = _digest(content)
        write_whole(self._list, (json.dumps(self._known, indent=1, sort_keys=True) + "\n").encode())

    def report(self) -> list[str]:
        """Return a line for every file."""
        lines = [f"Wrote {name}" for name in self._written]
        for old, new in self._kept:
            lines.append(f"Kept {old}, which was changed since it was exported; the new one is {new}")
        return lines


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _read_list(path: Path) -> dict[str, str]:
    try:
        known = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(name): str(digest) for name, digest in known.items()} if isinstance(known, dict) else {}
