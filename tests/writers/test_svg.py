"""Floor drawings as SVG: well-formed, to scale, described, the same bytes each time, readable in grey."""

import re
import shutil
import subprocess
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from lxml import etree

from lessonkit.document.floor_plan import describe
from lessonkit.document.scene import Area, Label, Scene, Segment, Symbol, Way
from lessonkit.writers.forms import AREAS, FORMS, LINES, PATHS
from lessonkit.writers.palette import PALETTE
from lessonkit.writers.svg import PAD, write_scene
from tests.document.scenes import groups, lessons

from .sample_lesson import scene
from .word.test_contrast import contrast

SVG = "{http://www.w3.org/2000/svg}"


def parsed(drawn: Scene, width: float = 504.0) -> etree._Element:
    """Return the parsed picture of a scene."""
    return etree.fromstring(write_scene(drawn, describe(drawn), width))


def numbers(element: etree._Element, *names: str) -> list[float]:
    """Return numeric attributes of an element."""
    return [float(element.get(name, "")) for name in names]


def test_a_room_is_drawn_to_scale() -> None:
    """A gym of 22 by 14 m that is 504 points wide with its margins has 22.636 points to the metre."""
    root = parsed(Scene(22, 14, (Area(0, 0, 22, 14, "room", "Gym"), Area(2, 3, 4, 5, "group", "one"))))
    room, group = root.findall(f"{SVG}rect")
    scale = (504 - 2 * PAD) / 22

    assert pytest.approx([PAD, PAD, 22 * scale, 14 * scale], abs=0.01) == numbers(room, "x", "y", "width", "height")
    assert pytest.approx([PAD + 2 * scale, PAD + 6 * scale], abs=0.01) == numbers(group, "x", "y")


def test_the_page_grows_with_the_floor_and_its_legend() -> None:
    """Without legend the page is as high as the floor; legend rows add to it, and nothing lies outside."""
    bare = parsed(Scene(10, 5, (Area(0, 0, 10, 5, "room", "Hall"),)), 200)
    full = parsed(scene(), 200)

    assert [0, 0, 200, 97 + 2 * PAD] == [float(part) for part in bare.get("viewBox", "").split()]
    _, _, width, height = (float(part) for part in full.get("viewBox", "").split())
    for text in full.iter(f"{SVG}text"):
        x, y = numbers(text, "x", "y")
        assert 0 <= x <= width
        assert 0 <= y <= height


def test_a_picture_says_what_it_shows() -> None:
    """The picture has the role of an image and its description as its name, also where that has signs of markup."""
    root = etree.fromstring(write_scene(Scene(4, 4, ()), "A < B & C"))
    title = root.find(f"{SVG}title")

    assert title is not None
    assert ("img", "A < B & C") == (root.get("role"), title.text)
    assert root.get("aria-labelledby") == title.get("id")


def test_words_with_signs_of_markup_are_words() -> None:
    """A label may hold any letters."""
    texts = [text.text for text in parsed(Scene(9, 9, (Label(4, 4, "<b> & co"),))).iter(f"{SVG}text")]

    assert ["<b> & co"] == texts


def test_the_same_scene_gives_the_same_bytes() -> None:
    """Nothing but the scene decides."""
    assert write_scene(scene(), "A floor") == write_scene(scene(), "A floor")


def test_arrowheads_point_where_ways_end() -> None:
    """A way to the right ends in a head whose tip is its last point."""
    root = parsed(Scene(4, 4, (Way(((0.5, 2.0), (3.5, 2.0)), "child", "run"),)), 200)
    (head,) = root.findall(f"{SVG}polygon")
    corners = [tuple(map(float, pair.split(","))) for pair in head.get("points", "").split()]
    scale = (200 - 2 * PAD) / 4

    assert pytest.approx((PAD + 3.5 * scale, PAD + 2 * scale), abs=0.02) == max(corners)


def test_ways_of_children_and_balls_differ_without_colour() -> None:
    """A child's way is solid, a ball's dashed, a rotation's more than twice as thick."""
    lines = {
        role: parsed(Scene(4, 4, (Way(((1.0, 1.0), (3.0, 3.0)), role, role),))).find(f"{SVG}polyline")
        for role in ("child", "ball", "rotation")
    }
    dashes = {role: line.get("stroke-dasharray") is not None for role, line in lines.items() if line is not None}
    thick = {role: float(line.get("stroke-width", "")) for role, line in lines.items() if line is not None}

    assert {"child": False, "ball": True, "rotation": False} == dashes
    assert thick["rotation"] > 2 * max(thick["child"], thick["ball"])


def test_every_thing_has_its_own_form_without_colour() -> None:
    """No two symbols share an outline, and no two straight pieces a thickness and dash."""
    forms = {what: (form.outline, form.pieces) for what, form in FORMS.items()}
    lines = {role: (ink.thick, ink.dash, ink.line == "lt1", ink.both_ends) for role, ink in LINES.items()}
    alike = [
        (one, other)
        for shapes in (forms, lines)
        for one, other in combinations(sorted(shapes), 2)
        if shapes[one] == shapes[other]  # type: ignore[index]
    ]

    # A child and a hoop are both round, a line and a bench both oblong: disc and ring, thin and thick, tell them apart.
    assert [("bench", "line"), ("child", "hoop")] == alike
    assert (FORMS["child"].ink.fill is None) != (FORMS["hoop"].ink.fill is None)
    assert FORMS["bench"].half_height > 5 * FORMS["line"].half_height


def test_a_kept_clear_area_is_hatched_in_lines_that_end_at_its_edges() -> None:
    """Lines at 45 degrees six points apart (x + y grows by 6 times the square root of 2), all of one path."""
    root = parsed(Scene(4, 4, (Area(1, 1, 2, 1, "safety", "kept clear"),)), 206)
    (area,), (hatch,) = root.findall(f"{SVG}rect"), root.findall(f"{SVG}path")
    left, top, across, down = numbers(area, "x", "y", "width", "height")
    lines = [
        [tuple(map(float, point.split(","))) for point in line.split()] for line in hatch.get("d", "").split("M")[1:]
    ]

    assert int((across + down) / (6 * 2**0.5)) <= len(lines)
    assert all(pytest.approx(sum(start), abs=0.02) == sum(end) for start, end in lines)
    apart = {round(sum(second[0]) - sum(first[0]), 1) for first, second in pairwise(lines)}
    assert {8.5} == apart
    for x, y in (point for line in lines for point in line):
        to_edges = (x - left, left + across - x, y - top, top + down - y)
        assert pytest.approx(0, abs=0.01) == min(to_edges)


def test_signs_stand_out_from_the_paper() -> None:
    """What has a meaning keeps 3 to 1 on white (WCAG 2.2, success criterion 1.4.11); doors are gaps in the wall."""
    inks = {
        **{what: form.ink for what, form in FORMS.items()},
        **{f"way {role}": ink for role, ink in PATHS.items()},
        **{f"piece {role}": ink for role, ink in LINES.items() if role != "door"},
        "area group": AREAS["group"],
        "area room": AREAS["room"],
    }
    faint = {}
    for name, ink in inks.items():
        best = max(contrast(PALETTE[slot], PALETTE["lt1"]) for slot in (ink.fill, ink.line) if slot)
        if best < 3:
            faint[name] = round(best, 2)

    assert {} == faint


def test_every_plan_of_the_curriculum_is_well_formed() -> None:
    """All numbers are finite and every mark has its place."""
    for name, drawn in (*lessons(), *groups()):
        picture = write_scene(drawn, describe(drawn), 215)

        assert etree.fromstring(picture).tag == f"{SVG}svg", name
        assert b"nan" not in picture and b"inf" not in picture, name


OVERLAPS = """
<script>
const apart = (a, b) => a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
const found = [];
document.querySelectorAll("svg").forEach((svg, number) => {
  const page = svg.getBoundingClientRect();
  const words = [...svg.querySelectorAll("text")];
  const boxes = words.map(word => word.getBoundingClientRect());
  words.forEach((word, one) => {
    const box = boxes[one];
    if (box.left < page.left - 1 || box.right > page.right + 1) found.push(number + " leaves: " + word.textContent);
    words.slice(0, one).forEach((other, two) => {
      if (!apart(box, boxes[two]) && (box.width > 9 || boxes[two].width > 9))
        found.push(number + " covers: " + word.textContent + " / " + other.textContent);
    });
  });
});
document.title = found.length + " " + found.slice(0, 20).join("; ");
</script>
"""


@pytest.mark.needs_chromium
def test_a_browser_sees_no_words_upon_words(tmp_path: Path) -> None:
    """Chromium sets the letters and measures them: no two labels of any set-up meet, none leaves its drawing.

    Numbers inside children, up to nine pixels wide, may touch where children stand close.
    """
    browser = shutil.which("chromium") or shutil.which("chromium-browser")
    if browser is None:
        pytest.skip("Chromium is not installed")
    pictures = [write_scene(drawn, describe(drawn), width).decode() for _, drawn in groups() for width in (200, 504)]
    page = tmp_path / "plans.html"
    page.write_text(f"<!doctype html><meta charset='utf-8'><body>{''.join(pictures)}{OVERLAPS}", "utf-8")
    command = [browser, "--headless", "--no-sandbox", "--disable-gpu", "--dump-dom", page.as_uri()]
    shown = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout
    title = re.search(r"<title>(\d+) ?(.*?)</title>", shown[: shown.index("<body>")])

    assert title is not None
    assert ("0", "") == title.groups()


def test_a_segment_without_meaning_has_no_head() -> None:
    """Lines, nets and ropes have no arrow."""
    root = parsed(Scene(4, 4, (Segment(1, 1, 3, 1, "line", "line"), Symbol(2, 2, "hoop", "hoop"))))

    assert [] == root.findall(f"{SVG}polygon")


def test_thick_lines_have_long_dashes() -> None:
    """A way drawn 2.4 times as thick has dashes of 4 and gaps of 3 points 2.4 times as long: else it looks unbroken."""
    way = Way(((0.5, 0.5), (2.5, 0.5)), "ball", "ball's way", thin=2.4)
    drawn = write_scene(Scene(3, 1, (way,)), "A way").decode()

    assert 'stroke-width="2.4" stroke-dasharray="9.6 7.2"' in drawn
