"""What may be chosen when a document is written, whatever the format."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from lessonkit.document.scene import Scene


@dataclass(frozen=True, slots=True)
class Options:
    """Choices for a writer; each writer uses those that concern it.

    ``drawings``: ``native`` shapes that can be moved, or ``picture``. ``scene_picture`` makes the PNG of a scene; it is
    called once a scene and only where a picture is wanted. Without it native drawings carry their words as fallback.
    """

    drawings: Literal["native", "picture"] = "native"
    scene_picture: Callable[[Scene], bytes] | None = None
