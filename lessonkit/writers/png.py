"""A floor drawing as a PNG picture, for programs that show neither native shapes nor SVG."""

from typing import Final

from lessonkit.document.floor_plan import describe
from lessonkit.document.scene import Scene
from lessonkit.writers.svg import write_scene

_ZOOM: Final = 3
"""Pixels for each of the 96 to the inch: 288 dots an inch print without steps."""
_DOTS: Final = 96.0


class NoPicturesError(Exception):
    """No program to paint pictures is installed; the message is a sentence for the teacher."""


def write_png(scene: Scene, width: float = 504.0, height: float | None = None) -> bytes:
    """Return the picture of a scene, ``width`` points wide and as high as it needs, or ``height`` points high.

    Letters come from the fonts of the machine, so that two machines may paint different pixels; one machine always
    paints the same. Raises NoPicturesError where the package resvg_py is not installed.
    """
    try:
        from resvg_py import svg_to_bytes
    except ImportError as error:
        raise NoPicturesError(
            "Pictures need one more package beside lessonkit; install it with: python -m pip install resvg_py"
        ) from error
    svg = write_scene(scene, describe(scene), width, height).decode()
    return bytes(svg_to_bytes(svg_string=svg, background="#ffffff", zoom=_ZOOM, dpi=_DOTS))
