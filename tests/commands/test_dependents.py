"""What a partial check rests on holds for the rules, and it is taken where it can be."""

import re
import shutil
import time
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from msgspec import structs

from lessonkit.commands import kept_check
from lessonkit.commands.dependents import AIMS, OF_NAMED, ONE_BY_ONE, with_activities
from lessonkit.loading.folder import Loaded, load_folder
from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.measures import Length
from lessonkit.records.unit import Pin, Unit
from lessonkit.rules.registry import RULES
from lessonkit.rules.rule import Context, Fault
from tests.commands.warm_fuzz import answers, trial

CURRICULUM = Path(__file__).resolve().parents[2] / "curriculum"
TINY = Length(2.0, "2 m")
BY_NAME = {module.RULE.code.name: module for module in RULES}


@pytest.fixture(scope="module")
def loaded() -> Loaded:
    """Load the curriculum that comes with the program, in a school that owns nothing and has small rooms."""
    found = load_folder(CURRICULUM, CURRICULUM.as_posix())
    schools = {}
    for name, school in found.library.schools.items():
        small = tuple(structs.replace(space, length=TINY, width=TINY) for space in school.spaces)
        schools[name] = structs.replace(school, equipment=(), spaces=small)
    return found._replace(library=replace(found.library, schools=schools))


def faults(code: str, unit: Unit, library: Library, activities: Mapping[str, Activity]) -> list[Fault]:
    """Return what a rule finds in a unit where these are all activities."""
    return list(BY_NAME[code].check(unit, Context(with_activities(library, activities))))


@pytest.mark.parametrize("code", sorted(ONE_BY_ONE))
def test_findings_of_a_unit_are_about_one_activity_each(loaded: Loaded, code: str) -> None:
    """What a rule finds with all activities is what it finds with each alone, which every finding names as related."""
    library = loaded.library
    units = sorted(library.units.values(), key=lambda unit: unit.id)[:: 1 if code == "floor-too-small" else 12]
    number = 0
    for unit in units:
        whole = faults(code, unit, library, library.activities)
        alone = [
            (activity, fault)
            for name, activity in library.activities.items()
            for fault in faults(code, unit, library, {name: activity})
        ]
        number += len(whole)

        assert sorted(map(repr, whole)) == sorted(repr(fault) for _, fault in alone)
        assert all([activity] == [other for other, _, _ in fault.related] for activity, fault in alone)
    assert number > 0


@pytest.mark.parametrize("code", sorted(OF_NAMED))
def test_findings_about_named_activities_need_no_others(loaded: Loaded, code: str) -> None:
    """What a rule finds with all activities is what it finds with those that the unit pins or names as favorites."""
    library = loaded.library
    names = sorted(library.activities)[::40]
    pins = tuple(Pin(lesson=1, activity=name) for name in names for _ in range(2))
    unit = min(library.units.values(), key=lambda each: each.id)
    unit = structs.replace(unit, pins=(*pins, Pin(lesson=2, activity=names[0])), favourites=tuple(names))
    found = faults(code, unit, library, library.activities)

    assert found
    assert found == faults(code, unit, library, {name: library.activities[name] for name in names})


def test_an_aim_is_served_by_any_activity_that_serves_it_alone(loaded: Loaded) -> None:
    """An aim is unserved with all activities where it is with each of them."""
    library = loaded.library
    for unit in sorted(library.units.values(), key=lambda unit: unit.id)[::12]:
        few = dict(list(library.activities.items())[::9])
        alone = [faults(AIMS, unit, library, {name: activity}) for name, activity in few.items()]
        everywhere = [fault for fault in alone[0] if all(fault in others for others in alone)]

        assert everywhere == faults(AIMS, unit, library, few)


@pytest.fixture
def whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Copy a part of the curriculum that comes with the program, without its plans, and stand beside it."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(kept_check, "YOUNG", 10_000_000)
    monkeypatch.setattr(kept_check, "LEAST", 1)
    shutil.copytree(CURRICULUM, "whole", ignore=shutil.ignore_patterns("plans", "maps", ".*"))
    for folder in sorted(Path("whole/activities").iterdir())[4:]:
        shutil.rmtree(folder)
    for unit in sorted(Path("whole/units").iterdir())[5:]:
        unit.unlink()
    return Path("whole")


EDITS = (
    ("activities/*/*.yaml", "effort: light", "effort: rest"),
    ("activities/*/*.yaml", "title: ", "title: New "),
    ("activities/*/*.yaml", "[practised", "[introduced, practised"),
    ("activities/*/*.yaml", ", practised", ""),
    ("activities/*/*.yaml", "step: ", "step: x-"),
    ("activities/*/*.yaml", "count: 1", "count: 9"),
    ("activities/*/*.yaml", "builds_on: [", "builds_on: [nowhere, "),
    ("skills/*.yaml", "means: ", "means: Well, "),
    ("units/*.yaml", "practise: 2", "practise: 3"),
    ("school.yaml", "title: ", "title: New "),
)
"""Files, something in some of them, and another thing in its stead."""


def test_usual_edits_are_checked_in_part(whole: Path) -> None:
    """After each only the record and what depends on it is checked; the answer is that of a check of everything."""
    answers("whole")
    for number, (pattern, right, wrong) in enumerate(EDITS, 3):
        paths = [path for path in sorted(whole.glob(pattern)) if right in path.read_text("utf-8")]
        path = paths[number % len(paths)]
        time.sleep(0.02)
        path.write_text(path.read_text("utf-8").replace(right, wrong, 1), "utf-8")
        said = answers("whole")
        kept = kept_check.read_dates("whole", "whole", kept_check.program())

        assert answers("whole", "--no-cache") == said, (path, right, wrong)
        assert kept is not None
        assert kept["news"] is not None
        assert path.as_posix() in kept["news"]["records"]


def test_a_pinned_activity_that_changes_is_checked_in_part(whole: Path) -> None:
    """Where it is no more for the part that it is pinned to, that is said as a check of everything says it."""
    unit, path = sorted(whole.glob("units/*.yaml"))[0], sorted(whole.glob("activities/*/*.yaml"))[0]
    pin = f"pins: [{{lesson: 1, activity: {path.stem}, part: warm-up}}]\n"
    unit.write_text(unit.read_text("utf-8").replace("repeats:", f"{pin}repeats:", 1), "utf-8")
    answers("whole")
    for parts, is_said in (("[warm-up, closing]", False), ("[closing]", True)):
        time.sleep(0.02)
        path.write_text(re.sub(r"(?m)^parts: .*$", f"parts: {parts}", path.read_text("utf-8"), count=1), "utf-8")
        said = answers("whole")
        kept = kept_check.read_dates("whole", "whole", kept_check.program())

        assert is_said == ("cannot be the warm-up of lesson 1: it is for closing." in said[1])
        assert answers("whole", "--no-cache") == said
        assert kept is not None
        assert kept["news"] is not None


@pytest.mark.parametrize("seed", [1, 2])
def test_answers_are_those_of_a_check_from_the_start(whole: Path, seed: int) -> None:
    """Over random changes of the curriculum that comes with the program; ``warm_fuzz`` makes longer trials of it."""
    assert [] == [done for done, same, _ in trial(whole, seed, 8) if not same]
