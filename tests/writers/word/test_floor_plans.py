"""Floor plans as native shapes: named, to scale, with arrowheads, legend and a picture for readers that need one."""

import pytest
from lxml import etree

from lessonkit.document.model import Document, Drawing
from lessonkit.document.scene import Area, Label, Scene, Segment, Symbol, Way
from lessonkit.writers.options import Options
from lessonkit.writers.word.shapes import PAD
from lessonkit.writers.word.writer import write

from ..sample_lesson import scene
from .word_parts import MC, WPG, WPS, A, parts, tree, w


def _document(drawn: Scene, times: int = 1, width: float = 1.0) -> Document:
    return Document("", "", "", "", "2026-01-01", (Drawing(drawn, "A floor", width),) * times)


def _shapes(drawn: Scene, width: float = 1.0) -> dict[str, etree._Element]:
    body = tree(write(_document(drawn, width=width)))
    found: dict[str, etree._Element] = {}
    for shape in body.iter(f"{{{WPS}}}wsp"):
        properties = shape.find(f"{{{WPS}}}cNvPr")
        assert properties is not None
        found.setdefault(properties.get("name", ""), shape)
    found.pop("edge of the drawing", None)
    return found


def _frame(shape: etree._Element) -> tuple[int, int, int, int]:
    offset, extent = shape.find(f".//{{{A}}}off"), shape.find(f".//{{{A}}}ext")
    assert offset is not None
    assert extent is not None
    numbers = (offset.get("x"), offset.get("y"), extent.get("cx"), extent.get("cy"))
    x, y, across, down = (int(number or "") for number in numbers)
    return x, y, across, down


@pytest.mark.parametrize("width", [1.0, 0.7, 0.4])
def test_positions_read_back_in_metres(width: float) -> None:
    """One factor, taken from the room's own shape, turns every symbol's centre back into its place, to a millimetre."""
    drawn = scene()
    shapes = _shapes(drawn, width)
    scale = _frame(shapes["Half gym"])[2] / drawn.width

    for symbol in drawn.shapes:
        if isinstance(symbol, Symbol):
            x, y, across, down = _frame(shapes[symbol.name])
            metres = ((x + across / 2 - PAD) / scale, drawn.depth - (y + down / 2 - PAD) / scale)
            assert (symbol.x, symbol.y) == pytest.approx(metres, abs=0.001)


def test_every_mark_of_the_scene_has_a_named_shape() -> None:
    """Areas, segments, symbols and ways are there under their names, labels under their words."""
    drawn = scene()
    names = {found.words if isinstance(found, Label) else found.name for found in drawn.shapes}

    assert set() == names - set(_shapes(drawn))


def test_shapes_stand_from_back_to_front() -> None:
    """The order of the scene is the order of the file, which is the order of drawing."""
    drawn = Scene(4, 4, (Area(0, 0, 4, 4, "room", "Room"), Symbol(1, 1, "cone", "Cone"), Label(2, 2, "Here")))

    assert ["Room", "Cone", "Here"] == list(_shapes(drawn))


@pytest.mark.parametrize(
    ("points", "flips"),
    [
        (((0, 0), (2, 1)), (None, "1")),
        (((2, 0), (0, 1)), ("1", "1")),
        (((0, 1), (2, 0)), (None, None)),
        (((2, 1), (0, 0)), ("1", None)),
    ],
)
def test_an_arrow_points_where_the_way_ends(
    points: tuple[tuple[float, float], ...], flips: tuple[str | None, ...]
) -> None:
    """A line runs from the upper left to the lower right of its frame; turned frames make it run otherwise.

    The scene's y grows upwards, the page's downwards. ISO/IEC 29500-1, 20.1.7.6: flipH and flipV.
    """
    shape = _shapes(Scene(4, 4, (Way(points, "ball", "Ball"),)))["Ball"]
    frame = shape.find(f".//{{{A}}}xfrm")

    assert frame is not None
    assert flips == (frame.get("flipH"), frame.get("flipV"))
    assert shape.find(f".//{{{A}}}tailEnd") is not None
    assert shape.find(f".//{{{A}}}headEnd") is None


def test_a_bent_way_is_one_shape() -> None:
    """Three points give one outline of two lines, so that a teacher drags it as a whole."""
    shape = _shapes(Scene(4, 4, (Way(((0, 0), (2, 0), (2, 3)), "child", "Run"),)))["Run"]

    assert 1 == len(list(shape.iter(f"{{{A}}}moveTo")))
    assert 2 == len(list(shape.iter(f"{{{A}}}lnTo")))


def test_paths_of_children_and_balls_differ_in_grey() -> None:
    """A child's way is solid, a ball's dashed; a rotation is thicker than either."""
    ways = tuple(Way(((0, y), (3, y)), role, role) for y, role in ((1, "child"), (2, "ball"), (3, "rotation")))  # type: ignore[arg-type]
    shapes = _shapes(Scene(4, 4, ways))
    dashes = {name: shape.find(f".//{{{A}}}prstDash").get("val") for name, shape in shapes.items()}  # type: ignore[union-attr]
    thick = {name: int(shape.find(f".//{{{A}}}ln").get("w")) for name, shape in shapes.items()}  # type: ignore[union-attr,arg-type]

    assert {"child": "solid", "ball": "dash", "rotation": "solid"} == dashes
    assert thick["rotation"] > 2 * max(thick["child"], thick["ball"])


def test_the_scale_bar_is_as_long_as_it_says() -> None:
    """Two metres on the bar are two metres on the floor."""
    drawn = scene()
    shapes = _shapes(drawn)
    scale = _frame(shapes["Half gym"])[2] / drawn.width

    assert 2 == pytest.approx(_frame(shapes["Scale bar"])[2] / scale, abs=0.001)
    assert "2 m" in shapes


def test_the_legend_names_what_is_drawn() -> None:
    """Each entry has its sign and its words; a ball without a symbol in the scene means the ball's path."""
    drawn = scene()
    shapes = _shapes(drawn)

    for _, words in drawn.legend:
        assert words in shapes
        assert f"Legend: {words}" in shapes
    assert shapes["Legend: path of the ball"].find(f".//{{{A}}}tailEnd") is not None
    assert shapes["Legend: child"].find(f".//{{{A}}}tailEnd") is None


def test_a_legend_may_name_a_symbol_and_a_path_of_one_kind() -> None:
    """With a ball and a ball's path in the scene, the first entry means the ball and the second the path."""
    drawn = Scene(
        4,
        4,
        (Symbol(1, 1, "ball", "Ball"), Way(((1, 1), (2, 2)), "ball", "Path")),
        legend=(("ball", "ball"), ("ball", "its path")),
    )
    shapes = _shapes(drawn)

    assert shapes["Legend: ball"].find(f".//{{{A}}}tailEnd") is None
    assert shapes["Legend: its path"].find(f".//{{{A}}}tailEnd") is not None


def test_a_legend_shows_a_rope_as_it_lies() -> None:
    """Equipment that the scene holds as a straight piece has the line's look in the legend."""
    drawn = Scene(4, 4, (Segment(0, 0, 3, 0, "rope", "rope"),), legend=(("rope", "a rope"), ("hoop", "a hoop")))
    shapes = _shapes(drawn)
    dashes = [shapes[name].find(f".//{{{A}}}prstDash") for name in ("rope", "Legend: a rope")]

    assert ["sysDot", "sysDot"] == [dash.get("val") for dash in dashes if dash is not None]
    assert "Legend: a hoop" in shapes


def test_everything_stays_inside_the_drawing() -> None:
    """No frame leaves the group, on a wide floor and on a deep one."""
    hall = (Area(0, 0, 10, 40, "room", "Long hall"),)
    for drawn in (scene(), Scene(10, 40, hall, (("cone", "cone"),), 5, "5 m"), Scene(10, 40, hall), Scene(4, 4, ())):
        body = tree(write(_document(drawn)))
        group = body.find(f".//{{{WPG}}}grpSpPr//{{{A}}}ext")
        assert group is not None
        width, height = int(group.get("cx", "")), int(group.get("cy", ""))
        for shape in body.iter(f"{{{WPS}}}wsp"):
            x, y, across, down = _frame(shape)
            assert min(x, y) >= 0
            assert x + across <= width
            assert y + down <= height


@pytest.mark.parametrize(("width", "numbered"), [(0.2, False), (0.6, True)])
def test_a_number_stands_in_a_child_that_has_room_for_two_digits(width: float, numbered: bool) -> None:
    """The circle around a number is at least ten points wide; where marks crowd, children have none."""
    shapes = _shapes(scene(), width)
    child = shapes["Child 12"]

    assert numbered == ("12" in "".join(child.itertext()))
    assert numbered == (_frame(child)[2] >= 10 * 12700)
    assert _frame(shapes["Cone 1"])[2] < 12 * 12700


@pytest.mark.parametrize("width", [1.0, 0.5, 0.3])
def test_the_scale_bar_and_the_legend_keep_apart(width: float) -> None:
    """However small the drawing, no sign or word of the legend lies over the bar or its words."""
    shapes = _shapes(scene(), width)
    bar = [_frame(shapes[name]) for name in ("Scale bar", "2 m")]
    for kind, words in scene().legend:
        assert kind
        for name in (words, f"Legend: {words}"):
            x, y, across, down = _frame(shapes[name])
            for left, top, long, high in bar:
                assert x + across <= left or left + long <= x or y + down <= top or top + high <= y


def test_a_deep_floor_fits_the_page() -> None:
    """A hall four times as deep as wide is drawn smaller rather than cut: letter paper has 9.5 inches at most."""
    body = tree(write(_document(Scene(10, 40, (Area(0, 0, 10, 40, "room", "Long hall"),)))))
    group = body.find(f".//{{{WPG}}}grpSpPr//{{{A}}}ext")

    assert group is not None
    assert int(group.get("cy", "")) <= 9.5 * 914400


def test_every_thing_has_a_form() -> None:
    """All kinds of equipment, building, area and path that a scene may hold can be drawn."""
    from typing import get_args

    from lessonkit.document.scene import AreaRole, LineRole, PathRole
    from lessonkit.records.activity import Thing

    shapes: tuple[Area | Segment | Symbol | Way, ...] = (
        *(Area(0, 0, 1, 1, role, f"area {role}") for role in get_args(AreaRole)),
        *(Segment(0, 0, 1, 1, role, f"line {role}") for role in get_args(LineRole)),
        *(Way(((0, 0), (1, 1)), role, f"way {role}") for role in get_args(PathRole)),
        *(Symbol(1, 1, thing, f"symbol {thing}", "7") for thing in get_args(Thing)),
    )

    assert {shape.name for shape in shapes} <= set(_shapes(Scene(3, 3, shapes)))


def test_a_picture_is_made_once_and_only_where_it_is_wanted() -> None:
    """A scene that appears three times in a size is painted once, in that size; without a maker none is looked for."""
    made: list[Scene] = []
    sizes: list[tuple[float, float]] = []

    def make(drawn: Scene, width: float, height: float) -> bytes:
        made.append(drawn)
        sizes.append((width, height))
        return b"PNG"

    written = parts(write(_document(scene(), times=3), Options(scene_picture=make)))

    assert [scene()] == made
    drawn = etree.fromstring(written["word/document.xml"])
    extent = next(drawn.iter("{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}extent"))
    assert [(int(extent.get("cx", "")) / 12700, int(extent.get("cy", "")) / 12700)] == sizes
    assert [b"PNG"] == [content for name, content in written.items() if name.startswith("word/media/")]
    assert [] == [name for name in parts(write(_document(scene()))) if "media" in name]


def test_pictures_replace_shapes_when_asked_for() -> None:
    """For printing with a program that is slow at native shapes the picture stands alone."""
    body = tree(write(_document(scene()), Options(drawings="picture", scene_picture=lambda *_: b"PNG")))

    assert [] == list(body.iter(f"{{{WPS}}}wsp", f"{{{MC}}}AlternateContent"))
    assert 1 == len(list(body.iter(w("drawing"))))


def test_pictures_need_someone_who_makes_them() -> None:
    """Asking for pictures without a maker is a fault of the program."""
    with pytest.raises(ValueError, match="drawings as pictures need a function"):
        write(_document(scene()), Options(drawings="picture"))
