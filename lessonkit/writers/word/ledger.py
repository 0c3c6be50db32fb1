"""What one Word file has used up while it is written: numbers, names, relations, pictures.

Counters live in the ledger, never in a module, so that a document gives the same file whatever was written before.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from hashlib import blake2s

from lessonkit.document.scene import Scene
from lessonkit.writers.options import Options

FIRST_FREE_RELATION = 10
"""Relations below this number belong to the parts that every file has."""
BULLETS = 1
"""The number of the one list definition that all bulleted lists share."""
_LONGEST_NAME = 40
_ROOM_FOR_NUMBERS = 34
_LONGEST_ADDRESS = 2079
_USABLE = re.compile(r"[A-Za-z][A-Za-z0-9_]*")
_PLAIN = re.compile(r"\w+", re.ASCII)
_UNUSABLE = re.compile(r"[^A-Za-z0-9_]")


@dataclass(slots=True)
class Ledger:
    """The running account of one file.

    ``anchors`` are the names that links may lead to; ``keys`` are record fields by their hidden bookmark; ``tallest``
    is the height of a page's text in twentieths of a point, ``repeated`` counts the places of a key that has several.
    """

    options: Options
    anchors: frozenset[str] = frozenset()
    links: dict[str, str] = field(default_factory=dict)
    pictures: dict[str, tuple[str, bytes]] = field(default_factory=dict)
    lists: list[tuple[int, int]] = field(default_factory=list)
    bookmarks: set[str] = field(default_factory=set)
    keys: dict[str, str] = field(default_factory=dict)
    repeated: dict[str, int] = field(default_factory=dict)
    scenes: dict[tuple[Scene, float, float], str] = field(default_factory=dict)
    tallest: int = 12000
    last_id: int = 0
    last_relation: int = FIRST_FREE_RELATION - 1

    def next_id(self) -> int:
        """Return a number that nothing else in the file bears: for drawings, bookmarks and content controls."""
        self.last_id += 1
        return self.last_id

    def link(self, address: str) -> str:
        """Return the relation id of an address outside the file."""
        if address not in self.links:
            self.links[address] = self._relation()
        return self.links[address]

    def numbered_list(self, level: int, start: int) -> int:
        """Return the number of a new list that counts from ``start`` at a level (from 0)."""
        self.lists.append((level, start))
        return BULLETS + len(self.lists)

    def picture(self, scene: Scene, size: tuple[float, float], make: Callable[[Scene, float, float], bytes]) -> str:
        """Return the relation id of a scene's picture, made once however often the scene appears in that size."""
        wanted = (scene, *size)
        if wanted not in self.scenes:
            relation = self._relation()
            self.scenes[wanted] = relation
            self.pictures[relation] = (f"media/scene{len(self.scenes)}.png", make(*wanted))
        return self.scenes[wanted]

    def bookmark(self, name: str, content: str) -> str:
        """Return content inside a bookmark; a name that is taken already marks nothing."""
        taken = name.lower()
        if taken in self.bookmarks:
            return content
        self.bookmarks.add(taken)
        number = self.next_id()
        return f'<w:bookmarkStart w:id="{number}" w:name="{name}"/>{content}<w:bookmarkEnd w:id="{number}"/>'

    def keyed(self, key: str, content: str) -> str:
        """Return content inside the hidden bookmark of its record fields; each place of theirs has its own."""
        first = name = key_bookmark(key)
        while name.lower() in self.bookmarks:
            self.repeated[key] = self.repeated.get(key, 1) + 1
            name = f"{first[:_ROOM_FOR_NUMBERS]}_{self.repeated[key]}"
        self.keys[name] = key
        return self.bookmark(name, content)

    def _relation(self) -> str:
        self.last_relation += 1
        return f"rId{self.last_relation}"


def anchor_bookmark(anchor: str) -> str:
    """Return the bookmark name of an anchor: the anchor itself where Word can use it, else one made from it.

    Word wants a letter, then letters, digits and underscores, 40 at most.
    """
    if len(anchor) <= _LONGEST_NAME and _USABLE.fullmatch(anchor):
        return anchor
    return _made("a_", anchor)


@lru_cache(maxsize=2_000)
def key_bookmark(key: str) -> str:
    """Return the hidden bookmark name of a record field's key; Word hides names that begin with an underscore."""
    name = f"_lk_{key}"
    if len(name) <= _LONGEST_NAME and _PLAIN.fullmatch(name):
        return name
    return _made("_lk_", key)


def usable_address(address: str) -> bool:
    """Tell whether Word accepts an address as the target of a link."""
    return len(address) <= _LONGEST_ADDRESS


def _made(prefix: str, words: str) -> str:
    digest = blake2s(words.encode("utf-8", "replace"), digest_size=6).hexdigest()
    kept = _UNUSABLE.sub("_", words[: _LONGEST_NAME - len(prefix) - len(digest) - 1])
    return f"{prefix}{kept}_{digest}"
