"""The page of a lesson with a circuit: a sheet, however long its stations are."""

from dataclasses import replace
from functools import cache

import msgspec
import pytest

from lessonkit.document.detail import BAREST, CIRCUIT_PACKINGS, CLOSE, Packing
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, work_out
from lessonkit.document.lesson_flow import Flow
from lessonkit.document.lesson_plan import lesson_detail, lesson_document
from lessonkit.document.lesson_setup import circuit_drawing
from lessonkit.document.model import Document, Drawing, ListBlock, Paragraph, Table, plain
from lessonkit.document.pieces import inline
from lessonkit.document.run_in import parted, run_in
from lessonkit.document.scene import Label
from lessonkit.records.activity import Activity
from lessonkit.records.plan import Lesson, Slot
from lessonkit.writers.word.writer import safe_pages
from tests.document.printed import said, steps_of, walk
from tests.document.sheet_plans import plan_facts

STATIONS = 4


@cache
def circuit_facts(children: int = 27, paper: str = "letter") -> PlanFacts:
    """Return a plan of one lesson for grade 5: the longest activities of each part, four of them stations."""
    facts = plan_facts("5", children, paper)
    slots = [
        _slot("warm-up", _longest(facts, "warm-up")[0], 7, None),
        *(_slot("practice", each, 4, number) for number, each in enumerate(_stations(facts), 1)),
        _slot("game", _longest(facts, "game")[0], 8, None),
        _slot("closing", _longest(facts, "closing")[0], 4, None),
    ]
    lesson: Lesson = msgspec.structs.replace(facts.plan.lessons[0], activities=tuple(slots), minutes=44)
    return work_out(msgspec.structs.replace(facts.plan, lessons=(lesson,)), facts.library)


def _slot(part: str, activity: Activity, minutes: int, station: int | None) -> Slot:
    setup = 0 if part == "closing" else 1
    return Slot(part=part, activity=activity.id, minutes=minutes, setup=setup, station=station)  # type: ignore[arg-type]


def _longest(facts: PlanFacts, part: str) -> list[Activity]:
    found = [each for each in facts.library.activities.values() if "5" in each.grades and part in each.parts]
    return sorted(found, key=lambda each: (-len(each.steps), each.id))


def _stations(facts: PlanFacts) -> list[Activity]:
    return [each for each in _longest(facts, "practice") if each.station][:STATIONS]


def _lesson(facts: PlanFacts) -> LessonFacts:
    return facts.lessons[0]


def _words(table: Table) -> str:
    return said(Document("", "", "", "", "", (table,)))


@pytest.mark.parametrize(("children", "paper"), [(8, "letter"), (27, "letter"), (36, "a4")])
def test_the_longest_stations_take_a_sheet(children: int, paper: str) -> None:
    """Two pages; cues, stop signals, cautions and groups of every activity, and most of its steps, stand on them."""
    facts = circuit_facts(children, paper)
    document = lesson_document(facts, 1, safe_pages)
    words = said(document)

    assert safe_pages(document) <= 2
    for slot in _lesson(facts).slots:
        activity = slot.activity
        needed = [*activity.cues, activity.stop_signal or "", *activity.safety[:1], slot.grouping.says]
        assert [] == [each for each in needed if plain(inline(each)).replace("\u00a0", " ") not in words]
        assert all(" ".join(step.split()) in words for step in steps_of(activity)[:3])


def test_a_lesson_that_no_sheet_holds_is_set_as_closely_as_can_be() -> None:
    """Every step of a lesson without stations still stands; a circuit leaves to the cards what it may."""
    plain_lesson, circuit = plan_facts("5"), circuit_facts()
    plain_detail, detail = (
        lesson_detail(facts, _lesson(facts), lambda document: 3) for facts in (plain_lesson, circuit)
    )

    assert replace(BAREST, packing=CLOSE) == plain_detail
    assert replace(BAREST, packing=CIRCUIT_PACKINGS[-1]) == detail


def test_a_circuit_is_said_above_its_stations() -> None:
    """Its minutes, then the stations; who is where and when where there is room."""
    lesson = _lesson(circuit_facts())
    flow = Flow(lesson)
    begins, ends = lesson.slots[1].starts, lesson.slots[STATIONS].ends
    with_times, without = (_words(flow.table(0, packing=packing)) for packing in CIRCUIT_PACKINGS[:2])

    assert f"{begins}\u2013{ends} practice Circuit of 4 stations for 4 squads" in without
    assert without.index("The minutes beside the stations are those of squad 1.") < without.index("station 1 ")
    assert "squad 4" in with_times
    assert "squad 4" not in without


def test_the_floor_plan_is_that_of_the_stations() -> None:
    """A teacher lays out the circuit first; the numbers are those of the plan."""
    facts = circuit_facts()
    drawing = circuit_drawing(facts, _lesson(facts))
    document = lesson_document(facts, 1)

    assert drawing is not None
    assert "1234" == "".join(each.words for each in drawing.scene.shapes if isinstance(each, Label))[-STATIONS:]
    assert [drawing] == [block for block in walk(document.blocks) if isinstance(block, Drawing)]
    assert " set up for the circuit" in said(document)
    assert circuit_drawing(plan_facts("5"), plan_facts("5").lessons[0]) is None


def test_steps_run_in_keep_numbers_words_and_keys() -> None:
    """The paragraph of a list parts into its items again, whatever number it begins with."""
    items = tuple(
        (Paragraph(inline(words), key=f"key/{words[0]}"),) for words in ("Count to 3. Go.", "*Turn*.", "End.")
    )
    (numbered,), (dotted,) = (run_in((ListBlock(items, start),)) for start in (4, None))

    assert isinstance(numbered, Paragraph) and isinstance(dotted, Paragraph)
    assert "4.\u00a0Count to 3. Go. 5.\u00a0Turn. 6.\u00a0End." == plain(numbered.content)
    assert "key/C key/* key/E" == numbered.key
    for paragraph in (numbered, dotted):
        assert ["Count to 3. Go.", "Turn.", "End."] == parted(plain(paragraph.content))


def test_a_list_in_a_list_stays_one() -> None:
    """Numbers inside of numbers would be hard to follow on one line."""
    inner = ListBlock(((Paragraph(inline("Inner.")),),))
    nested = ListBlock(((Paragraph(inline("Outer.")), inner),), 1)

    assert (nested,) == run_in((nested,))


def test_steps_are_left_out_of_the_longest_stations_first() -> None:
    """Three dots stand for them, the head of the table says where they are, and three steps of a station stay."""
    flow = Flow(_lesson(circuit_facts()))

    def steps(packing: Packing) -> list[int]:
        rows = flow.table(0, packing=packing).rows[3 : 3 + STATIONS]
        found = [block for row in rows for block in row[1].blocks if isinstance(block, Paragraph)]
        return [count for block in found if (count := len(parted(plain(block.content))))]

    whole, one, all_ = (steps(CLOSE._replace(left_out=count)) for count in (0, 1, 99))
    assert whole == [len(steps_of(slot.activity)) for slot in _lesson(circuit_facts()).slots[1 : 1 + STATIONS]]
    assert sum(whole) - 1 == sum(one)
    assert [3] * STATIONS == all_
    assert "(\u2026 stands for further steps" in _words(flow.table(0, packing=CLOSE._replace(left_out=1)))
    assert "\u2026 stands for" not in _words(flow.table(0, packing=CLOSE))
