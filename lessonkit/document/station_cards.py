"""Station cards: a sheet for the wall at each station, read from across the room, its picture first."""

from dataclasses import replace

from msgspec import structs

from lessonkit.document.detail import CountPages, fullest
from lessonkit.document.floor_plan import describe, group_scene
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.markdown import read_inline
from lessonkit.document.model import Block, Document, Drawing, Heading, PageBreak, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, cell, labelled
from lessonkit.document.scene import Label, Scene
from lessonkit.records.activity import Activity

_MOST_CUES = 3
_WIDTHS = (0.94, 0.88, 0.82, 0.76, 0.7, 0.62, 0.54, 0.46, 0.38)
"""Shares of its column that the picture may take, largest first."""
_ACROSS = tuple(share / 100 for share in range(100, 25, -5))
"""Shares of the page that a picture above its cues may take."""
_COLUMNS = (52.0, 48.0)


def station_cards(facts: PlanFacts, pages: CountPages | None = None) -> Document | None:
    """Return a sheet for every activity of a plan that can be a station; None where there is none.

    With ``pages`` each picture is as large as its sheet holds.
    """
    activities = station_activities(facts)
    if not activities:
        return None
    blocks: list[Block] = []
    for number, activity in enumerate(activities):
        blocks += [*([PageBreak()] if number else []), *_fitted(activity, facts, pages)]
    return _sheet(facts, tuple(blocks))


def station_activities(facts: PlanFacts) -> tuple[Activity, ...]:
    """Return the activities of a plan that can be a station, each once, by title."""
    found = {
        slot.activity.id: slot.activity for lesson in facts.lessons for slot in lesson.slots if slot.activity.station
    }
    return tuple(sorted(found.values(), key=lambda activity: activity.title))


def _sheet(facts: PlanFacts, blocks: tuple[Block, ...]) -> Document:
    return Document(
        title=f"Station cards: {facts.unit.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} {facts.school_class.title}",
        date=facts.lessons[0].lesson.date,
        blocks=blocks,
        paper=facts.school.paper,
        landscape=True,
    )


def _fitted(activity: Activity, facts: PlanFacts, pages: CountPages | None) -> tuple[Block, ...]:
    """Set the picture above its cues where it is larger there than beside them, as that of a long lane is."""
    if pages is None:
        return _card(activity, facts, _WIDTHS[2])

    def fits(width: float, across: bool) -> bool:
        return pages(_sheet(facts, _card(activity, facts, width, across))) == 1

    above = fullest(_ACROSS, lambda width: fits(width, True))
    beside = fullest(_WIDTHS, lambda width: fits(width, False))
    across = fits(above, True) and (above > beside * _COLUMNS[0] / 100 or not fits(beside, False))
    return _card(activity, facts, above if across else beside, across)


def _card(activity: Activity, facts: PlanFacts, width: float, across: bool = False) -> tuple[Block, ...]:
    floor = structs.replace(activity.floor, safety=None)
    scene = _bare(group_scene(structs.replace(activity, floor=floor), facts.school.lengths))
    cues = tuple(Paragraph(read_inline(cue), Role.POSTER) for cue in activity.cues[:_MOST_CUES])
    picture = Drawing(scene, describe(scene), width)
    beside = Table(
        ((cell(picture), cell(*cues)),), _COLUMNS, f"Picture and cues of {activity.title}", header_rows=0, plain=True
    )
    shown: tuple[Block, ...] = (picture, *cues) if across else (beside,)
    return (
        Heading(1, text(activity.title), poster=True),
        *shown,
        *_count_to_beat(activity),
    )


def _count_to_beat(activity: Activity) -> tuple[Block, ...]:
    """Say what a child counts or times, where the activity has it."""
    if activity.measured is None:
        return ()
    return (Paragraph(labelled("Beat your best:", f"{activity.measured.what}."), Role.POSTER_SMALL),)


def _bare(scene: Scene) -> Scene:
    """Leave out what cannot be read from afar: legend and scale; enlarge the words."""
    shapes = tuple(replace(shape, size="large") if isinstance(shape, Label) else shape for shape in scene.shapes)
    return replace(scene, shapes=shapes, legend=(), scale_bar=0.0, scale_words="")
