"""A ledger that hands out nothing: blocks written with it take the same room, and equal ones have equal markup."""

from dataclasses import dataclass

from lessonkit.document.scene import Scene
from lessonkit.writers.options import Options
from lessonkit.writers.word.ledger import Ledger, key_bookmark

_BLANK = Options(drawings="picture", scene_picture=lambda *_: b"")
"""A picture is as large as the native drawing and sooner written."""


@dataclass(slots=True)
class Sketch(Ledger):
    """The account of a body that is only measured: every number is the same, every name may be taken again."""

    def next_id(self) -> int:
        """Return no number of its own."""
        return 0

    def link(self, address: str) -> str:
        """Return no relation."""
        return ""

    def numbered_list(self, level: int, start: int) -> int:
        """Return no number of its own: where a list begins takes no room."""
        return 0

    def picture(self, scene: Scene, size: tuple[float, float], make: object) -> str:
        """Return no relation, and make no picture."""
        return ""

    def bookmark(self, name: str, content: str) -> str:
        """Return content with its name."""
        return f'<w:bookmarkStart w:id="0" w:name="{name}"/>{content}<w:bookmarkEnd w:id="0"/>'

    def keyed(self, key: str, content: str) -> str:
        """Return content with the name of its record fields."""
        return self.bookmark(key_bookmark(key), content)


def sketch(tallest: int) -> Sketch:
    """Return the sketch of a body on pages whose text is ``tallest`` twentieths of a point high."""
    return Sketch(_BLANK, tallest=tallest)
