"""What may be chosen when a document is written, whatever the format."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from lessonkit.document.scene import Scene


@dataclass(frozen=True, slots=True)
class SchoolLook:
    """A school's own Word file as the base of ours, and our styles that take the look of theirs, by name."""

    document: bytes
    styles: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Options:
    """Choices for a writer; each writer uses those that concern it.

    ``drawings``: ``native`` shapes that can be moved, or ``picture``. ``scene_picture`` makes the PNG of a scene in a
    width and height in points; it is called once for each of them and only where a picture is wanted. Without it native
    drawings carry their words as fallback.
    ``look`` is the school's own, for Word files.
    """

    drawings: Literal["native", "picture"] = "native"
    scene_picture: Callable[[Scene, float, float], bytes] | None = None
    look: SchoolLook | None = None
