"""Floor plans show every group in its place, every child once, and say what they show."""

import pytest

from lessonkit.document.floor_plan import areas_scene, describe, group_scene, lesson_scene
from lessonkit.document.scene import Area, Label, Scene, Segment, Symbol, Way
from lessonkit.document.station_map import station_says, station_scene
from lessonkit.logistics.floor import does_it_fit
from lessonkit.logistics.layout import Box, Need, Room
from lessonkit.logistics.stations import Station, StationsAnswer, stations
from lessonkit.records.activity import Drawing, Mark, Path, Uneven

from ..logistics.floors import activity, door, gym
from .scenes import groups, lessons

DRAWN = Drawing(
    marks=(
        Mark(what="child", at=(0.5, 1), label="A"),
        Mark(what="child", at=(2.5, 1), label="B"),
        Mark(what="cone", at=(1.5, 1.8), label="gate"),
        Mark(what="net", at=(1.5, 0), to=(1.5, 1.5)),
    ),
    paths=(Path(what="ball", through=((0.5, 1), (2.5, 1))),),
)
PAIRS = activity(
    3, 2, 1, form="pairs", drawing=DRAWN, uneven=Uneven(rule="larger-group", say="One pair takes a third child.")
)


def children(scene: Scene) -> list[str | None]:
    """Return the labels of the children of a scene."""
    return [shape.label for shape in scene.shapes if isinstance(shape, Symbol) and shape.what == "child"]


def areas(scene: Scene, role: str) -> list[Area]:
    """Return the areas of a scene with a role."""
    return [shape for shape in scene.shapes if isinstance(shape, Area) and shape.role == role]


@pytest.mark.parametrize("count", [1, 2, 7, 25, 31])
def test_every_child_is_drawn_once(count: int) -> None:
    """Children are numbered through the class, also the third of a pair and a child alone."""
    scene = lesson_scene(PAIRS, gym(), count, "metres")

    assert [str(number) for number in range(1, count + 1)] == children(scene)
    assert max(1, count // 2) == len(areas(scene, "group"))


def test_children_stand_in_their_group() -> None:
    """Also the child that the author's drawing has no place for stands inside the group's area."""
    scene = lesson_scene(PAIRS, gym(), 25, "metres")
    first, *_ = areas(scene, "group")
    inside = [
        shape.label
        for shape in scene.shapes
        if isinstance(shape, Symbol)
        and shape.what == "child"
        and first.x < shape.x < first.x + first.width
        and first.y < shape.y < first.y + first.depth
    ]

    assert ["1", "2", "3"] == inside


def test_a_group_is_drawn_as_its_author_drew_it() -> None:
    """The net of a group that is not turned runs where the record says, in the group's own corner of the room."""
    scene = lesson_scene(PAIRS, gym(), 2, "metres")
    (area,) = areas(scene, "group")
    (net,) = [shape for shape in scene.shapes if isinstance(shape, Segment)]

    assert pytest.approx((1.5, 0, 1.5, 1.5)) == (
        net.x1 - area.x,
        net.y1 - area.y,
        net.x2 - area.x,
        net.y2 - area.y,
    )


@pytest.mark.parametrize(
    ("wall", "corner"),
    [
        # The drawing's far edge lies at the wall; a quarter turn anticlockwise takes far to left, and left to near.
        ("far", (0.0, 2.0)),
        ("left", (0.0, 0.0)),
        ("near", (3.0, 0.0)),
        ("right", (2.0, 3.0)),
    ],
)
def test_a_drawing_is_turned_to_its_wall(wall: str, corner: tuple[float, float]) -> None:
    """The far left corner of a group's drawing turns with it."""
    drawing = Drawing(marks=(Mark(what="cone", at=(0, 2)), Mark(what="child", at=(1, 1))))
    one = activity(3, 2, 0, form="pairs", wall=True, drawing=drawing)
    scene = lesson_scene(one, gym(walls=(wall,)), 2, "metres")  # type: ignore[arg-type]
    (area,) = areas(scene, "group")
    (cone,) = [shape for shape in scene.shapes if isinstance(shape, Symbol) and shape.what == "cone"]

    assert pytest.approx(corner) == (cone.x - area.x, cone.y - area.y)


def test_the_legend_names_what_appears_and_nothing_else() -> None:
    """People come first; a wall is named only where it is played against."""
    space = gym(walls=("far",), doors=(door("near", 5),))
    plain = lesson_scene(PAIRS, space, 4, "metres")
    wall = lesson_scene(activity(3, 2, 1, wall=True), space, 4, "metres")

    assert ["child", "cone", "net", "ball's way", "group's space"] == [words for _, words in plain.legend]
    assert ["child", "own space", "wall to play against"] == [words for _, words in wall.legend]


@pytest.mark.parametrize(
    ("count", "uneven", "words"),
    [
        (25, Uneven(rule="rotate-in", say="Change in."), "child, 1 more changing in"),
        (24, Uneven(rule="rotate-in", say="Change in."), "child"),
    ],
)
def test_children_who_change_in_are_said(count: int, uneven: Uneven, words: str) -> None:
    """A child at the side is not drawn on the floor, so the legend says so."""
    scene = lesson_scene(activity(3, 2, 1, form="pairs", uneven=uneven, drawing=DRAWN), gym(), count, "metres")

    assert words == dict(scene.legend)["child"]


def test_a_class_drawn_in_part_is_said() -> None:
    """Two of twenty-five children in the author's drawing of a whole class are said to be two of twenty-five."""
    scene = lesson_scene(activity(20, 12, 1, form="whole-class", drawing=DRAWN), gym(), 25, "metres")

    assert "child, 2 of 25 drawn" == dict(scene.legend)["child"]
    assert [None, None] == children(scene)


def test_groups_without_floor_are_said() -> None:
    """The plan shows the groups that fit, the legend how many that are."""
    scene = lesson_scene(activity(10, 6, 0, form="pairs", drawing=DRAWN), gym(), 12, "metres")

    assert 4 == len(areas(scene, "group"))
    assert "group's space, 4 of 6" == dict(scene.legend)["group"]


@pytest.mark.parametrize(
    ("lengths", "says"),
    [
        ("metres", "Gym, 22 by 14 metres: 2 spaces, 4 children, 2 cones, 2 nets."),
        # 22 m is 72.2 ft and 14 m is 45.9 ft.
        ("feet", "Gym, 72 by 46 feet: 2 spaces, 4 children, 2 cones, 2 nets."),
    ],
)
def test_a_sentence_describes_a_plan(lengths: str, says: str) -> None:
    """Those who cannot see a plan hear its size and what it holds."""
    assert says == describe(lesson_scene(PAIRS, gym(), 4, lengths))  # type: ignore[arg-type]


def test_the_clear_floor_around_a_group_is_shown() -> None:
    """One metre around 3 by 2 m makes a drawing of 5 by 4 m; at a wall there is none behind it."""
    scene = group_scene(PAIRS, "metres")
    wall = group_scene(activity(3, 2, 1, wall=True), "metres")

    assert (5, 4) == (scene.width, scene.depth)
    assert "kept clear, 1\u00a0m" == dict(scene.legend)["safety"]
    assert "Space of one group, 3 by 2 metres: 2 children, 1 cone, 1 net." == describe(scene)
    assert (5, 3) == (wall.width, wall.depth)


def test_clear_floor_is_said_in_the_lengths_of_the_school() -> None:
    """A school that measures in feet reads feet: 1 m is 3 ft 3 in."""
    assert "kept clear, 3\u00a0ft\u00a03\u00a0in" == dict(group_scene(PAIRS, "feet").legend)["safety"]


def test_labels_of_equipment_stand_in_the_set_up_only() -> None:
    """A group's set-up bears the author's words; the plan of the room bears numbers."""
    assert ["gate"] == [shape.words for shape in group_scene(PAIRS, "metres").shapes if isinstance(shape, Label)]
    assert [] == [shape.words for shape in lesson_scene(PAIRS, gym(), 4, "metres").shapes if isinstance(shape, Label)]


def test_numbered_areas_without_a_record() -> None:
    """The drawing of the stand-alone answer numbers its areas."""
    scene = areas_scene(does_it_fit(Need(5, 4), 3, Room(22, 14)).layout, "metres")

    assert ["1", "2", "3"] == [shape.words for shape in scene.shapes if isinstance(shape, Label)]
    assert "Room, 22 by 14 metres: 3 spaces." == describe(scene)


def test_a_station_map_leads_round() -> None:
    """Every station bears its number and is followed by the next one, the last by the first."""
    names = ("Gates", "Bridges", "Tunnels", "Towers")
    activities = [
        activity(3, 2, 1, form="pairs", drawing=DRAWN, title=name, uneven=Uneven(rule="larger-group", say="Three."))
        for name in names
    ]
    answer = stations(activities, 25, gym())
    scene = station_scene(answer, gym(), "metres")
    ways = [shape for shape in scene.shapes if isinstance(shape, Way) and shape.role == "rotation"]

    assert ["1", "2", "3", "4"] == [shape.words for shape in scene.shapes if isinstance(shape, Label)]
    assert 4 == len(ways) == len(areas(scene, "station"))
    assert station_says(answer, gym()).endswith(
        "4 stations: squads go round 1 Gates, 2 Bridges, 3 Tunnels and 4 Towers."
    )


def test_no_way_leads_over_a_station() -> None:
    """Of four stations side by side the last has the others between it and the first."""
    row = tuple(Station(place + 1, PAIRS, 2, Box(1 + 5.0 * place, 1, 3, 10), ()) for place in range(4))
    scene = station_scene(StationsAnswer(True, row, ""), gym(), "metres")
    ways = [shape.name for shape in scene.shapes if isinstance(shape, Way)]

    assert [f"on from station {number}" for number in (1, 2, 3)] == ways


@pytest.mark.parametrize(("count", "ways"), [(1, 0), (2, 1), (3, 3)])
def test_stations_lead_on(count: int, ways: int) -> None:
    """A single station has no next one; of two, one way is enough for both."""
    scene = station_scene(stations([PAIRS] * count, 12, gym()), gym(), "metres")

    assert ways == sum(isinstance(shape, Way) and shape.role == "rotation" for shape in scene.shapes)


def test_every_activity_of_the_curriculum_is_drawn_inside_its_floor() -> None:
    """Nothing of any plan lies outside its drawing."""
    for name, scene in (*lessons(), *groups()):
        for shape in scene.shapes:
            points: tuple[tuple[float, float], ...] = ()
            match shape:
                case Symbol() | Label():
                    points = ((shape.x, shape.y),)
                case Segment():
                    points = ((shape.x1, shape.y1), (shape.x2, shape.y2))
                case Way():
                    points = shape.points
                case Area():
                    points = ((shape.x, shape.y), (shape.x + shape.width, shape.y + shape.depth))
            for x, y in points:
                assert -0.001 <= x <= scene.width + 0.001, (name, shape)
                assert -0.001 <= y <= scene.depth + 0.001, (name, shape)
