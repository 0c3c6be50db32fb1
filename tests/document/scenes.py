"""The floor plans of the shipped curriculum, as the flagship class sees them."""

from functools import lru_cache
from pathlib import Path

from lessonkit.document.floor_plan import group_scene, lesson_scene
from lessonkit.document.scene import Scene
from lessonkit.loading.folder import load_folder
from lessonkit.records.library import Library

CURRICULUM = Path(__file__).parents[2] / "curriculum"


@lru_cache(maxsize=1)
def library() -> Library:
    """Return the records of the shipped curriculum."""
    return load_folder(CURRICULUM, "curriculum").library


@lru_cache(maxsize=1)
def lessons() -> list[tuple[str, Scene]]:
    """Return the plan of every activity of grade 3 for twenty-five children in the gym, by activity id."""
    gym = library().schools["quillfeather"].space("gym")
    return [
        (key, lesson_scene(each.for_grade("3"), gym, 25, "metres"))
        for key, each in sorted(library().activities.items())
        if "3" in each.grades
    ]


@lru_cache(maxsize=1)
def groups() -> list[tuple[str, Scene]]:
    """Return the set-up of one group of every activity, by activity id."""
    return [(key, group_scene(each, "metres")) for key, each in sorted(library().activities.items())]
