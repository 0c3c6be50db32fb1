"""The flagship unit that ships with the project: clean, audited, and printed as its records say."""

import io
import zipfile
from base64 import b64decode
from functools import cache
from pathlib import Path

import pytest

from lessonkit.commands.checking import findings_of
from lessonkit.document.binder import binder_document
from lessonkit.document.lesson_facts import PlanFacts, work_out
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.loading.folder import Loaded, load_folder
from lessonkit.planning.audit_plan import audit_plan, inputs_changed
from lessonkit.planning.digest import is_edited
from lessonkit.records.plan import Plan
from lessonkit.writers.options import Options
from lessonkit.writers.table import FORMATS
from lessonkit.writers.word.properties import PROPERTIES_PART
from lessonkit.writers.word.record_of_export import CONTENT_PART, is_untouched

ROOT = Path(__file__).parent.parent
PLAN = "paddles-grade-3-grade-3-heron"
EXPORTS = ROOT / "exports" / PLAN


@cache
def loaded() -> Loaded:
    """Load the starter curriculum once."""
    return load_folder(ROOT / "curriculum", "curriculum")


def plan() -> Plan:
    """Return the plan that ships with it."""
    return loaded().library.plans[PLAN]


@cache
def facts() -> PlanFacts:
    """Work the plan out."""
    return work_out(plan(), loaded().library)


def parts(content: bytes) -> dict[str, bytes]:
    """Unpack a Word file, and the copy of its content that it keeps: packed bytes differ between builds of zlib.

    The seal is a digest of the packed copy and differs with it; that it fits its own file is looked at here.
    """
    assert is_untouched(content)

    found = _unpacked(content)
    kept = found.pop(CONTENT_PART)
    del found[PROPERTIES_PART]
    head, _, rest = kept.partition(b"<parts>")
    packed, _, _ = rest.partition(b"</parts>")
    copy = {f"copy/{name}": part for name, part in _unpacked(b64decode(packed)).items()}
    return {**found, CONTENT_PART: head, **copy}


def _unpacked(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return {name: package.read(name) for name in package.namelist()}


def test_every_record_is_clean() -> None:
    """Loading, rules and the audit of the plan find nothing, advice included."""
    assert () == findings_of(loaded())


def test_there_are_activities_enough_for_real_choices() -> None:
    """At least thirty activities work on the unit's skill or serve its lessons (the brief of the flagship)."""
    assert 30 <= len(loaded().library.activities)


def test_the_plan_is_the_sequencers_own_and_proven() -> None:
    """Nobody edited it, its records have not changed since, no better one exists, and the audit agrees."""
    made = plan().made

    assert made is not None
    assert ("proven", made.cost) == (made.status, made.bound)
    assert not is_edited(plan())
    assert inputs_changed(plan(), loaded().library) is None
    assert () == audit_plan(plan(), loaded().library)


def test_the_plan_fills_eight_lessons_of_35_minutes_on_the_schools_days() -> None:
    """Tuesdays and Thursdays from January 5, 2027, without the teacher day (source: its records)."""
    lessons = plan().lessons

    assert [35] * 8 == [sum(slot.setup + slot.minutes for slot in lesson.activities) for lesson in lessons]
    assert "2027-01-05" == lessons[0].date
    assert "2027-01-21" not in [lesson.date for lesson in lessons]


@pytest.mark.parametrize("number", range(1, 9))
def test_a_lessons_word_file_is_as_committed(number: int) -> None:
    """`make demo` reproduces exports/: the same unpacked parts on any machine."""
    built = FORMATS["word"].write(lesson_document(facts(), number, FORMATS["word"].pages), Options())

    assert parts((EXPORTS / f"lesson-{number:02}.docx").read_bytes()) == parts(built)


def test_the_binders_word_file_is_as_committed() -> None:
    """`make demo` reproduces exports/: the same unpacked parts on any machine."""
    built = FORMATS["word"].write(binder_document(facts(), FORMATS["word"].pages), Options())

    assert parts((EXPORTS / "binder.docx").read_bytes()) == parts(built)
