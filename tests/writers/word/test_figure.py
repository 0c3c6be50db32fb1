"""A drawing's shapes reach the edges of its frame, so that no program stretches them."""

import msgspec

from lessonkit.document.floor_plan import group_scene
from lessonkit.document.model import Document, Drawing
from lessonkit.writers.word.shapes import PAD
from lessonkit.writers.word.writer import write
from tests.document.printed import library

from .word_parts import WP, tree

_A = "http://schemas.openxmlformats.org/drawingml/2006/main"


def test_shapes_reach_the_edges_of_a_drawing() -> None:
    """LibreOffice stretches a group to its frame, also where a group needs no clear floor around it."""
    activity = next(each for each in library().activities.values() if each.drawing and not each.floor.safety)
    safe = msgspec.structs.replace(activity.floor, safety=activity.floor.width)
    for floor in (activity.floor, safe):
        scene = group_scene(msgspec.structs.replace(activity, floor=floor), "feet")
        content = write(Document("", "", "", "", "", (Drawing(scene, "A drawing", 0.5),)))
        frame = next(tree(content).iter(f"{{{WP}}}extent"))
        boxes = [
            tuple(int(place.get(name, 0)) for place in (shape[0], shape[1]) for name in ("x", "y", "cx", "cy"))
            for shape in tree(content).iter(f"{{{_A}}}xfrm")
            if len(shape) == 2
        ]
        left, top = (min(box[side] for box in boxes) for side in (0, 1))
        right, low = (max(box[side] + box[side + 6] for box in boxes) for side in (0, 1))

        assert max(left, top) <= PAD
        assert int(frame.get("cx", 0)) - right <= PAD
        assert int(frame.get("cy", 0)) - low <= PAD
