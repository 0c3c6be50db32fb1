"""What a check says of other records when an activity has changed in a field that they read.

Units and skills are not held against all activities again: of a unit's findings those about the changed activity are
looked for anew, and whether its aims are still served, or a skill's steps still worked on, is asked of a few activities
that were known to do it. A test holds the rules to what this rests on.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, Final

from lessonkit.commands.gathered import FEW, Facts, facts_again, facts_of
from lessonkit.commands.kept_findings import plain
from lessonkit.commands.known_records import Known, NotAsKnownError
from lessonkit.commands.outward import WIDTH, outward_mark
from lessonkit.commands.shelf import Shelf
from lessonkit.records.activity import Activity
from lessonkit.records.library import AnyRecord, Library
from lessonkit.records.skill import Skill
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context
from lessonkit.rules.run import check_records
from lessonkit.source.location import FieldPath

ONE_BY_ONE: Final = frozenset(("equipment-short", "floor-too-small"))
"""Rules for units each of whose findings is about one activity, which it names as related, and about no other."""
OF_NAMED: Final = frozenset(("favourite-unused", "pin-impossible", "pins-collide"))
"""Rules for units that read no activities but those that a unit pins or names as favorites."""
AIMS: Final = "aim-unserved"
STEPS: Final = "step-without-activity"
CIRCLE: Final = "builds-on-in-circle"
Change = tuple[list[Any], list[Any]]
"""Findings that are no more, and new ones."""


def allow(record: AnyRecord, name: str, known: Known) -> None:
    """Raise NotAsKnownError where a change of what other records read in a record has to be held against everything."""
    if known.names(record.kind).get(record.id) != name:
        raise NotAsKnownError
    _, steps, served = changed_parts(record, name, known)
    match record.kind:
        case "activity":
            audited = "plan" in known.kept["kinds"] or (known.audited and (steps or served))
        case "skill":
            audited = known.audited or steps
        case _:
            audited = record.kind not in ("plan", "unit")
    if audited:
        raise NotAsKnownError


def changed_parts(record: AnyRecord, name: str, known: Known) -> tuple[bool, ...]:
    """Tell which of the marks of what others read in a record are not those that were known."""
    was, now = known.outward(name), outward_mark(record)
    return tuple(was[start : start + WIDTH] != now[start : start + WIDTH] for start in range(0, 3 * WIDTH, WIDTH))


class Dependents:
    """What depends on some changed activities. ``moved`` are those in which something changed that others read.

    ``touched`` are these and further ones that findings elsewhere point at, since their lines may be others.
    """

    def __init__(
        self, shelf: Shelf, context: Context, moved: Mapping[str, Activity], touched: Mapping[str, Activity]
    ) -> None:
        self._shelf = shelf
        self._known = shelf.known
        self._context = context
        self._moved = moved
        self._touched = touched
        self._library = context.library

    def builders(self) -> set[str]:
        """Return the files of activities that may build on one of those that moved."""
        pointing = {
            finding[3][0]
            for finding in self._known.found
            if finding[0][1] not in ONE_BY_ONE and any(there[0] in self._touched for there, _ in finding[7])
        }
        if not self._moved:
            return pointing
        builders = self._known.section("builders")
        moved = {activity.id for activity in self._moved.values()}
        named = {path for name in moved for path in builders.get(name, ())}
        return pointing | named | self._changed_before(lambda facts: not moved.isdisjoint(facts.builds_on))

    def _changed_before(self, wanted: Callable[[Facts], bool]) -> set[str]:
        """Return the files of those activities that are not as they were when everything was checked, if wanted."""
        changed = self._known.changed.items()
        return {name for name, (_, _, facts) in changed if facts and wanted(facts_again(facts))}

    def has_circle(self) -> bool:
        """Tell whether activities build on each other in a circle, before or after those moved."""
        if not self._moved:
            return False
        if any(finding[0][1] == CIRCLE for finding in self._known.found):
            return True
        return any(self._is_in_circle(activity) for activity in self._moved.values())

    def _is_in_circle(self, activity: Activity) -> bool:
        waiting, seen = [*activity.builds_on], set(activity.builds_on)
        while waiting:
            here = self._library.activities.get(waiting.pop())
            if here is not None:
                waiting += (name for name in here.builds_on if name not in seen)
                seen.update(here.builds_on)
        return activity.id in seen

    def changes(self, leave: Iterable[str]) -> Iterator[Change]:
        """Give what changes in the findings of units and skills, those in the files ``leave`` aside."""
        for unit in self._units():
            if unit.path not in leave:
                yield self._about_activities(unit)
                yield self._about_named(unit)
                yield self._about_aims(unit)
        for skill in self._skills():
            if skill.path not in leave:
                yield self._about_steps(skill)

    def _units(self) -> Iterator[Unit]:
        """Give the units of which something may have to be said anew."""
        names = self._known.names("unit")
        there = {finding[3][0] for finding in self._known.found if finding[0][1] in ONE_BY_ONE}
        for name, path in names.items():
            if path in there or (self._moved and self._is_about_moved(path)):
                yield self._library.units[name]

    def _is_about_moved(self, path: str) -> bool:
        """Tell whether a unit can have something to do with an activity that moved."""
        if path in self._known.changed or any(self._has_changed(activity, 2) for activity in self._moved.values()):
            return True
        skills, names = self._known.section("asked")[path]
        return any(
            activity.id in names or any(place.skill in skills for place in activity.skills)
            for activity in self._moved.values()
        )

    def _about_activities(self, unit: Unit) -> Change:
        """Return what changes of a unit's findings that are about one activity each."""
        gone = [
            finding
            for finding in self._found_in(unit.path, ONE_BY_ONE)
            if any(there[0] in self._touched for there, _ in finding[7])
        ]
        return gone, self._run(unit, ONE_BY_ONE, self._touched.values()) if gone or self._moved else []

    def _about_named(self, unit: Unit) -> Change:
        """Return what changes of a unit's findings about the activities that it names."""
        names = {*(pin.activity for pin in unit.pins), *unit.favourites}
        if not any(activity.id in names for activity in self._moved.values()):
            return [], []
        named = [self._library.activities[name] for name in sorted(names) if name in self._library.activities]
        return self._found_in(unit.path, OF_NAMED), self._run(unit, OF_NAMED, named)

    def _about_aims(self, unit: Unit) -> Change:
        """Return what changes of a unit's findings about aims: none that was served is, or one that was not."""
        if not any(self._has_changed(activity, 2) for activity in self._moved.values()):
            return [], []
        was = self._found_in(unit.path, frozenset((AIMS,)))
        there = {(finding[5], finding[2]) for finding in was}
        now = self._unserved(unit, self._moved.values())
        lost = {code for activity in self._moved.values() for code in self._lost(activity, unit.framework)}
        doubtful = {one for one in now - there if _code(one, unit) in lost}
        if doubtful:
            servers = self._servers(unit, {_code(one, unit) for one in doubtful})
            if doubtful & self._unserved(unit, [*self._moved.values(), *servers]):
                raise NotAsKnownError
        return [finding for finding in was if (finding[5], finding[2]) not in now], []

    def _unserved(self, unit: Unit, activities: Iterable[Activity]) -> set[tuple[FieldPath, str]]:
        """Return what the rule for aims would find in a unit where these are all activities: fields and sentences."""
        rule = self._known.rule("unit", AIMS)
        return {(fault.field, fault.says) for fault in rule.check(unit, self._with(activities))}

    def _lost(self, activity: Activity, framework: str) -> Iterator[str]:
        """Give the codes that an activity served before in a way, or for a grade, in which it does no more."""
        before = facts_again(self._known.facts(activity.path))
        now = activity.outcomes.get(framework, {}) if {*before.grades} <= {*activity.grades.grades} else {}
        for code, ways in before.outcomes.get(framework, {}).items():
            if not {*ways} <= {*now.get(code, ())}:
                yield code

    def _servers(self, unit: Unit, codes: set[str]) -> Iterator[Activity]:
        """Give activities that may serve codes of a unit's framework."""
        servers = self._known.section("servers")
        few = {path for key, paths in servers.items() if key[0] == unit.framework and key[1] in codes for path in paths}
        others = self._changed_before(lambda facts: not codes.isdisjoint(facts.outcomes.get(unit.framework, {})))
        yield from self._activities(few | others)

    def _activities(self, paths: Iterable[str]) -> Iterator[Activity]:
        for path in sorted(paths):
            record = self._shelf.record(path)
            if isinstance(record, Activity) and path not in self._moved:
                yield record

    def _skills(self) -> Iterator[Skill]:
        """Give the skills of which an activity that moved has, or had, other steps than before."""
        moved = [activity for activity in self._moved.values() if self._has_changed(activity, 1)]
        now = {place.skill for activity in moved for place in activity.skills}
        before = {skill for activity in moved for skill in _skills_before(activity, self._known)}
        for name in sorted(now | before):
            skill = self._library.skills.get(name)
            if skill is not None:
                yield skill

    def _about_steps(self, skill: Skill) -> Change:
        """Return what changes of a skill's findings about steps that no activity works on."""
        trainers = self._known.section("trainers")
        few = {step.id: trainers.get((skill.id, step.id), ()) for step in skill.steps}
        changed = self._changed_before(lambda facts: any(name == skill.id for name, _ in facts.steps))
        others = [*self._activities({path for paths in few.values() for path in paths} | changed)]
        there = {
            place.step for each in (*others, *self._moved.values()) for place in each.skills if place.skill == skill.id
        }
        if any(len(paths) == FEW and step not in there for step, paths in few.items()):
            raise NotAsKnownError
        steps = frozenset((STEPS,))
        return self._found_in(skill.path, steps), self._run(skill, steps, [*others, *self._moved.values()])

    def _has_changed(self, activity: Activity, part: int) -> bool:
        return changed_parts(activity, activity.path, self._known)[part]

    def _found_in(self, path: str, codes: frozenset[str]) -> list[Any]:
        return [finding for finding in self._known.found if finding[3][0] == path and finding[0][1] in codes]

    def _run(self, record: AnyRecord, codes: frozenset[str], activities: Iterable[Activity]) -> list[Any]:
        """Return what some rules find in a record where these are all activities."""
        rules = tuple(self._known.rule(record.kind, code) for code in sorted(codes))
        return [plain(finding) for finding in check_records((record,), self._with(activities), rules)]

    def _with(self, activities: Iterable[Activity]) -> Context:
        """Return what rules see where these are all activities."""
        few = {activity.id: activity for activity in activities}
        return replace(self._context, library=with_activities(self._library, few))


def with_activities(library: Library, activities: Mapping[str, Activity]) -> Library:
    """Return a library with other activities."""
    return replace(library, activities=activities)


def _code(unserved: tuple[FieldPath, str], unit: Unit) -> str:
    """Return the outcome code of the aim whose code stands in a field."""
    number = unserved[0][1]
    return unit.aims[number].code if isinstance(number, int) else ""


def _skills_before(activity: Activity, known: Known) -> set[str]:
    return {skill for skill, _ in facts_again(known.facts(activity.path)).steps}


def news_of(record: AnyRecord, mark: bytes) -> tuple[bytes, bytes, bytes]:
    """Return what is kept of a record that has changed; ``mark`` stands for its file's content."""
    return mark, outward_mark(record), facts_of(record) if isinstance(record, Activity) else b""
