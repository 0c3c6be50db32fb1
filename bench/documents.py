"""Measure the goals that documents have for their speed and memory.

Run ``python bench/documents.py``; it takes some minutes. ``--only WORD`` measures the goals whose names have the word.
Ratios are of processor time within one run: ours and what it is compared with take turns, five rounds, of which the
median counts, so that the machine's own speed cancels out. Seconds are processor time of this process. Loading and
planning are never counted.

A *lesson* is one of the starter's flagship unit with its floor plan as native shapes. *Written* goes from a document
tree whose pages are counted to the bytes of its file; every floor is settled anew. *Counted* counts the pages too, with
nothing remembered. *Fitted* makes the tree as well, in as much detail as fills its sheets, found by trial.
*python-docx* writes the same tree plainly: its default template, a style a paragraph, a table cell by cell; it knows no
shapes and takes the drawing's markup from us, settled anew as ours is. *Zipping* packs our finished parts with
Python's zipfile, the floor below which no writer can come.
"""

import argparse
import gc
import io
import time
import tracemalloc
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache, partial
from itertools import cycle, islice
from statistics import median
from typing import Any

import docx
from docx.oxml import parse_xml
from make_records import STARTER
from msgspec import structs

from lessonkit.document import floor_plan, lesson_plan
from lessonkit.document.binder import binder_document
from lessonkit.document.lesson_facts import PlanFacts, work_out
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.document.model import (
    Block,
    Document,
    Drawing,
    Emphasis,
    Heading,
    Inline,
    KeyValues,
    ListBlock,
    PageBreak,
    Paragraph,
    Strong,
    Table,
    WritingSpace,
    plain,
    text,
)
from lessonkit.loading.folder import load_folder
from lessonkit.records.library import Library
from lessonkit.writers import forms
from lessonkit.writers.options import Options
from lessonkit.writers.word import legend, shapes, tables, writer
from lessonkit.writers.word.figure import drawing_xml
from lessonkit.writers.word.frame import Frame
from lessonkit.writers.word.ledger import Ledger
from lessonkit.writers.word.xml import NAMESPACES

ROUNDS = 5
PLAN = "paddles-grade-3-grade-3-heron"
YEAR = 432
"""Lessons: twelve classes with thirty-six lessons each."""
Run = Callable[[], object]


def main() -> None:
    """Measure and print a table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--only", default="", help="measure only the goals with this word in their names")
    parser.add_argument("--rounds", type=int, default=ROUNDS)
    args = parser.parse_args()
    print(f"{'goal':72} {'limit':>7} {'measured':>9}")
    for goal in _goals():
        if args.only in goal.name:
            measured = goal.measure(args.rounds)
            met = measured >= goal.limit if goal.upside_down else measured <= goal.limit
            print(f"{goal.name:72} {goal.limit:7.2f} {measured:9.2f}  {'met' if met else 'NOT MET'}", flush=True)


@dataclass(frozen=True)
class Goal:
    """What is measured and what it may be at most; ``upside_down``: at least."""

    name: str
    limit: float
    measure: Callable[[int], float]
    upside_down: bool = False


def _goals() -> Iterator[Goal]:
    yield from _goals_of_lessons()
    yield from _goals_of_binders()


def _goals_of_lessons() -> Iterator[Goal]:
    facts = _facts(PLAN)
    lessons = [writer.numbered(lesson_document(facts, each.lesson.lesson)) for each in facts.lessons]
    ours = _settling(lambda: [writer.write(document) for document in lessons])
    counted = _fresh(lambda: [writer.write(replace(document, pages=None)) for document in lessons])
    plainly, zipped = _settling(_naive(lessons)), _zipped([writer.write(document) for document in lessons])
    yield Goal("lesson written: python-docx over ours", 20.0, lambda rounds: _ratio(plainly, ours, rounds), True)
    yield Goal("lesson written: ours over zipping", 3.0, lambda rounds: _ratio(ours, zipped, rounds))
    yield Goal("lesson counted: python-docx over ours", 5.0, lambda rounds: _ratio(plainly, counted, rounds), True)
    fitted = _fresh(lambda: [lesson_document(facts, each.lesson.lesson, writer.safe_pages) for each in facts.lessons])
    yield Goal("lesson fitted: python-docx over ours", 1.0, lambda rounds: _ratio(plainly, fitted, rounds), True)
    year = list(islice(cycle(_year()), YEAR))
    made = [writer.numbered(lesson_document(*each)) for each in year]
    written = _settling(lambda: [writer.write(document) for document in made])
    yield Goal(f"{YEAR} lessons written: seconds", 2.0, lambda rounds: _seconds(written, min(rounds, 3)))
    yield Goal(f"memory: kilobytes more a lesson from {YEAR // 2} to {YEAR}", 5.0, lambda _: _memory(year))


def _goals_of_binders() -> Iterator[Goal]:
    facts = _facts(PLAN)
    made = writer.numbered(binder_document(_long(facts, 72)))
    ours = _settling(lambda: writer.write(made))
    yield Goal("binder of 72 lessons written: seconds", 0.3, lambda rounds: _seconds(ours, rounds))
    yield Goal(
        "binder of 72 lessons written: ours over zipping",
        3.0,
        lambda rounds: _ratio(ours, _zipped([writer.write(made)]), rounds),
    )
    yield Goal("binder of 8 lessons fitted: seconds", 1.0, lambda rounds: _seconds(_binder(facts), rounds))
    for few, many in ((8, 24), (24, 72)):
        name = f"binder fitted: {many} over {few} lessons, for each lesson"
        yield Goal(name, 1.2, partial(_growth, facts, few, many))


def _growth(facts: PlanFacts, few: int, many: int, rounds: int) -> float:
    return _ratio(_binder(_long(facts, many)), _binder(_long(facts, few)), rounds) * few / many


def _binder(facts: PlanFacts) -> Run:
    return _fresh(lambda: writer.write(binder_document(facts, writer.safe_pages)))


def _settling(run: Run) -> Run:
    """Return a run that settles every floor anew and remembers no markup."""

    def settling() -> object:
        for kept in (legend.plan_of, legend.settled_plan, shapes._look, forms.half_size, tables._blank_cell):
            kept.cache_clear()
        return run()

    return settling


def _fresh(run: Run) -> Run:
    """Return a run that begins with nothing remembered of any floor or block."""

    def fresh() -> object:
        for kept in (writer._measure_of, floor_plan._lesson_scene, floor_plan._group_scene, lesson_plan._fitted):
            kept.cache_clear()
        return _settling(run)()

    return fresh


def _ratio(ours: Run, theirs: Run, rounds: int) -> float:
    """Return the median of ours over theirs, in turn."""
    return median(_time(ours) / _time(theirs) for _ in range(rounds))


def _seconds(run: Run, rounds: int) -> float:
    return median(_time(run) for _ in range(rounds))


def _time(run: Run) -> float:
    gc.collect()
    start = time.process_time()
    run()
    return time.process_time() - start


def _memory(year: list[tuple[PlanFacts, int]]) -> float:
    """Return by how many kilobytes a lesson the highest use of memory grows while lessons are written one by one."""
    peaks = []
    for count in (YEAR // 2, YEAR):
        _fresh(lambda: None)()
        gc.collect()
        tracemalloc.start()
        for facts, number in year[:count]:
            writer.write(lesson_document(facts, number))
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    return (peaks[1] - peaks[0]) / 1024 / (YEAR // 2)


@cache
def _library() -> Library:
    return load_folder(STARTER, str(STARTER)).library


@cache
def _facts(plan: str) -> PlanFacts:
    return work_out(_library().plans[plan], _library())


def _year() -> list[tuple[PlanFacts, int]]:
    """Return every lesson of the starter's plans."""
    found = [_facts(plan) for plan in sorted(_library().plans)]
    return [(facts, lesson.lesson.lesson) for facts in found for lesson in facts.lessons]


def _long(facts: PlanFacts, count: int) -> PlanFacts:
    """Return a plan of many lessons: those of the starter's plans one after the other, numbered anew."""
    taken = islice(cycle(_year()), count)
    lessons = []
    for number, (other, given) in enumerate(taken, start=1):
        lesson = next(each for each in other.lessons if each.lesson.lesson == given)
        lessons.append(replace(lesson, lesson=structs.replace(lesson.lesson, lesson=number)))
    return replace(facts, lessons=tuple(lessons))


def _zipped(files: list[bytes]) -> Run:
    """Return a run that packs the parts of finished files with Python's own zip archive."""
    unpacked = []
    for file in files:
        with zipfile.ZipFile(io.BytesIO(file)) as archive:
            unpacked.append([(name, archive.read(name)) for name in archive.namelist()])

    def run() -> None:
        for parts in unpacked:
            with zipfile.ZipFile(io.BytesIO(), "w", zipfile.ZIP_DEFLATED) as archive:
                for name, content in parts:
                    archive.writestr(name, content)

    return run


def _naive(documents: list[Document]) -> Run:
    """Return a run that writes documents with python-docx as one would without thinking of speed."""

    def run() -> None:
        for document in documents:
            file = docx.Document()
            for block in document.blocks:
                _add(block, file)
            file.save(io.BytesIO())

    return run


def _add(block: Block, place: Any) -> None:
    """Add a block to a document or a cell of python-docx."""
    match block:
        case Heading(level=level, content=content):
            _words(place.add_paragraph(style=f"Heading {level}"), content)
        case Paragraph(content=content):
            _words(place.add_paragraph(), content)
        case ListBlock():
            _add_list(block, place)
        case Drawing():
            place.add_paragraph()._p.addnext(parse_xml(_drawn(block)))
        case Table(rows=rows, shares=shares):
            _add_table([[cell.blocks for cell in row] for row in rows], len(shares), place)
        case KeyValues(pairs=pairs):
            names = [(Paragraph((Strong(text(name)),)),) for name, _ in pairs]
            _add_table([names, [(Paragraph(value),) for _, value in pairs]], len(pairs), place)
        case WritingSpace(title=title, lines=lines):
            _add_table([[(Paragraph(text(title)),)], *[[()]] * lines], 1, place)
        case PageBreak():
            place.add_page_break()
        case _:
            raise TypeError(f"a lesson has no {type(block).__name__}")


def _add_list(block: ListBlock, place: Any) -> None:
    style = "List Bullet" if block.start is None else "List Number"
    for inner in (inner for item in block.items for inner in item):
        if isinstance(inner, Paragraph):
            _words(place.add_paragraph(style=style), inner.content)
        else:
            _add(inner, place)


def _add_table(rows: list[Any], columns: int, place: Any) -> None:
    """Add a table; every cell has a first paragraph from the start."""
    table = place.add_table(len(rows), columns)
    for number, row in enumerate(rows):
        for column, blocks in enumerate(row):
            cell = table.cell(number, column)
            match blocks:
                case (Paragraph(content=content), *rest):
                    _words(cell.paragraphs[0], content)
                case rest:
                    pass
            for block in rest:
                _add(block, cell)


def _drawn(drawing: Drawing) -> str:
    return drawing_xml(drawing, Frame(4000), Ledger(Options())).replace("<w:p>", f"<w:p {NAMESPACES}>", 1)


def _words(paragraph: Any, content: tuple[Inline, ...]) -> None:
    for inline in content:
        run = paragraph.add_run(plain((inline,)))
        if isinstance(inline, Strong):
            run.bold = True
        elif isinstance(inline, Emphasis):
            run.italic = True


if __name__ == "__main__":
    main()
