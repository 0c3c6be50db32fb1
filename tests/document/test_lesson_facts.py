"""What a lesson does, worked out for its class."""

from dataclasses import replace

import msgspec

from lessonkit.document.lesson_facts import work_out

from .printed import fixed_plan, library


def _codes(*also: str) -> set[str]:
    """Return the outcomes of the fixed plan for a class of grade 3 and others."""
    school = library().schools["quillfeather"]
    heron = school.school_class("grade-3-heron")
    classes = tuple(
        msgspec.structs.replace(each, also_grades=also) if each.id == heron.id else each for each in school.classes
    )
    changed = msgspec.structs.replace(school, classes=classes)
    facts = work_out(fixed_plan(), replace(library(), schools={school.id: changed}))
    return {target.code for lesson in facts.lessons for target in lesson.targets}


def test_a_combined_class_has_the_outcomes_of_all_its_grades() -> None:
    """Grade 3 alone has no outcomes of grade 4 in its lessons; with grade 4 in the room it has both."""
    alone, together = _codes(), _codes("4")

    assert not {code for code in alone if ".4" in code}
    assert {code for code in together if ".4" in code}
    assert alone < together
