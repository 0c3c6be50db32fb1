"""Station cards: a sheet for the wall at each station, read from across the room, its picture first."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from msgspec import structs

from lessonkit.document.close_up import close_up
from lessonkit.document.detail import CountPages, fullest
from lessonkit.document.floor_plan import describe, group_scene
from lessonkit.document.keys import activity_key, field_key
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.markdown import read_inline
from lessonkit.document.model import (
    Block,
    Document,
    Drawing,
    Heading,
    PageBreak,
    Paragraph,
    Role,
    Strong,
    Table,
    plain,
    text,
)
from lessonkit.document.pieces import EN_DASH, NO_BREAK, bound, cell
from lessonkit.document.poster_words import ACROSS, POINTS, lines_of
from lessonkit.document.scene import Scene
from lessonkit.records.activity import Activity, Measured

_MOST_CUES = 3
_BEAT = f"Beat{NO_BREAK}your{NO_BREAK}best:"
_LETTERS: Final = (
    (Role.POSTER_HUGE, Role.POSTER),
    (Role.POSTER_LARGE, Role.POSTER),
    (Role.POSTER, Role.POSTER),
    (Role.POSTER, Role.POSTER_SMALL),
    (Role.POSTER_SMALL, Role.POSTER_SMALL),
    (Role.POSTER_SMALL, Role.POSTER_LEAST),
)
"""Letters of the cues and of what is counted, largest first."""
_COLUMNS: Final = ((62.0, 38.0), (56.0, 44.0), (50.0, 50.0), (44.0, 56.0), (38.0, 62.0))
"""A column for the picture and one for words, in hundredths of the page."""
_WIDTHS: Final = (0.97, 0.92, 0.87, 0.82, 0.76, 0.7, 0.64, 0.58, 0.52, 0.46, 0.4, 0.34)
"""Shares of its column that the picture may take, largest first."""
_LARGE, _ENOUGH = 0.2, 0.1
"""Shares of the page that a picture takes before letters grow beyond 12 millimetres, and before they reach them."""
_WIDEST = 0.85
"""The share of the page's width that is enough for any picture: that of a long lane is never tall."""
_RATIO = 0.75
"""About how tall a page for words is beside its width, on any paper."""
_GAP = 16.0
"""Points between two columns."""


@dataclass(frozen=True, slots=True)
class _Plan:
    """How a card is laid out: its letters, its columns (one for the whole width), what stands beside the picture.

    ``width`` is the picture's share of its column.
    """

    cues: Role
    count: Role
    columns: tuple[float, float] | None = None
    count_beside: bool = False
    width: float = 0.5

    @property
    def picture(self) -> float:
        """The picture's share of the page's width."""
        return self.width * (self.columns[0] / 100 if self.columns else 1.0)


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
        about=field_key("plan", facts.plan.id),
    )


def _fitted(activity: Activity, facts: PlanFacts, pages: CountPages | None) -> tuple[Block, ...]:
    """Lay a card out with the largest letters that leave its picture large, and with the largest picture for these."""
    scene = _picture(activity, facts)
    if pages is None:
        return _card(activity, scene, facts, _Plan(*_LETTERS[-1]))
    shape = scene.depth / scene.width
    best: _Plan | None = None
    for cues, count in _LETTERS:
        found = [_largest(plan, activity, scene, facts, pages) for plan in _plans(activity, facts, cues, count)]
        fitting = [plan for plan in found if plan is not None]
        if fitting:
            best = max(fitting, key=lambda plan: plan.picture)
            enough = _LARGE if POINTS[cues] > POINTS[Role.POSTER] else _ENOUGH
            if best.picture >= _WIDEST or best.picture**2 * shape / _RATIO >= enough:
                break
    return _card(activity, scene, facts, best or _Plan(*_LETTERS[-1], width=_WIDTHS[-1]))


def _plans(activity: Activity, facts: PlanFacts, cues: Role, count: Role) -> Iterator[_Plan]:
    """Yield the ways to lay out a card in which no word is torn and no cue runs over too many lines."""
    room = ACROSS[facts.school.paper]
    said = activity.cues[:_MOST_CUES]
    counted = (_counted(activity.measured),) if activity.measured else ()
    if _go_into(said, cues, room, 2) and _go_into(counted, count, room, 2):
        yield _Plan(cues, count)
    for columns in _COLUMNS:
        beside = room * columns[1] / 100 - _GAP
        if _go_into(said, cues, beside, 3) and _go_into(counted, count, room, 2):
            yield _Plan(cues, count, columns)
        if counted and _go_into(said, cues, room, 1) and _go_into(counted, count, beside, 5):
            yield _Plan(cues, count, columns, count_beside=True)


def _go_into(words: Sequence[str], role: Role, room: float, most: int) -> bool:
    lines = [lines_of(plain(read_inline(each)), role, room) for each in words]
    return all(each is not None and each <= most for each in lines)


def _largest(plan: _Plan, activity: Activity, scene: Scene, facts: PlanFacts, pages: CountPages) -> _Plan | None:
    """Return a layout with the largest picture that its sheet holds; None where it holds none."""

    def fits(width: float) -> bool:
        return pages(_sheet(facts, _card(activity, scene, facts, replace(plan, width=width)))) == 1

    width = fullest(_WIDTHS, fits)
    return replace(plan, width=width) if width != _WIDTHS[-1] or fits(width) else None


def _picture(activity: Activity, facts: PlanFacts) -> Scene:
    floor = structs.replace(activity.floor, safety=None)
    return close_up(group_scene(structs.replace(activity, floor=floor), facts.school.lengths))


def _card(activity: Activity, scene: Scene, facts: PlanFacts, plan: _Plan) -> tuple[Block, ...]:
    picture = Drawing(scene, describe(group_scene(activity, facts.school.lengths)), plan.width)
    own = activity.id
    cues = tuple(
        Paragraph((Strong(bound(cue)),), plan.cues, activity_key(own, "cues", place))
        for place, cue in enumerate(activity.cues[:_MOST_CUES])
    )
    counted = _count_to_beat(activity, plan.count)
    title = Heading(1, bound(activity.title), poster=True, key=activity_key(own, "title"))
    if plan.columns is None:
        return (title, picture, *cues, *counted)
    beside, below = (counted, cues) if plan.count_beside else (cues, counted)
    cells = ((cell(picture), cell(*beside)),)
    words = f"Picture and words of {activity.title}"
    return (title, Table(cells, plan.columns, words, header_rows=0, plain=True), *below)


def _count_to_beat(activity: Activity, role: Role) -> tuple[Block, ...]:
    """Say what a child counts or times, where the activity has it."""
    if activity.measured is None:
        return ()
    words = (Strong(text(f"{_BEAT} ")), *bound(f"{activity.measured.what}."))
    return (Paragraph(words, role, activity_key(activity.id, "measured", "what")),)


def _counted(measured: Measured) -> str:
    return f"{_BEAT} {measured.what}."
