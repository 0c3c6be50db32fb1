"""The variables of the sequencer and the rows that define them, whatever the terms then ask.

One yes-or-no variable an activity, part and lesson says that the part holds the activity; their order inside a part is
settled afterwards. Minutes are counted from the usual ones, up and down, in one sum for all activities of a lesson that
move at the same rate: they are interchangeable minute for minute, and the sum is split among them afterwards.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from lessonkit.planning.linear import Linear, Weighted
from lessonkit.planning.problem import Bounds, Goal, Level, Problem

Place = tuple[int, int, int]
"""Activity, part, lesson."""
Group = tuple[int, int, int]
"""Lesson, part (-1 where minutes need not be known part by part), moving rate."""


@dataclass(frozen=True, slots=True)
class Clique:
    """Places of one part of a lesson, of which a plan takes ``most`` at most."""

    places: tuple[Place, ...]
    most: int


class Variables:
    """The variables of one problem. Those that only some terms need are made when first asked for.

    ``fine`` keeps every demand in a row of its own, so that a conflict can name it; else rows are gathered for speed.
    """

    def __init__(self, problem: Problem, *, fine: bool = False) -> None:
        self.problem = problem
        self.fine = fine
        self.model = Linear()
        self.place: dict[Place, int] = {}
        self._in_lesson: dict[int, list[Place]] = defaultdict(list)
        self._in_part: dict[tuple[int, int], list[Place]] = defaultdict(list)
        self._of_activity: dict[tuple[int, int], list[int]] = defaultdict(list)
        self._seen: dict[tuple[int, int], int] = {}
        self._met: dict[tuple[Level, int], int] = {}
        self._higher: dict[tuple[Level, int], int] = {}
        self._used: dict[int, int] = {}
        self._one: int | None = None
        self._practised: dict[tuple[int, int], int] = {}
        self._assessed: dict[tuple[Goal, int], int] = {}
        self.groups: dict[Group, tuple[int, int]] = {}
        self._make_places()
        self._make_groups()

    def _make_places(self) -> None:
        for lesson, frame in enumerate(self.problem.lessons):
            for placed in frame.taught or ():
                self._add_place((placed.activity, placed.part, lesson), least=1)
        for place in self.problem.places:
            self._add_place(place, least=0)

    def _add_place(self, place: Place, least: int) -> None:
        if place in self.place:
            return
        activity, part, lesson = place
        number = self.model.whole(f"place {self.problem.choices[activity].id} part {part} lesson {lesson}", least, 1)
        self.place[place] = number
        self._in_lesson[lesson].append(place)
        self._in_part[part, lesson].append(place)
        self._of_activity[activity, lesson].append(number)

    # Places

    def in_lesson(self, lesson: int) -> tuple[Place, ...]:
        """Return the places of a lesson."""
        return tuple(self._in_lesson[lesson])

    def in_part(self, part: int, lesson: int) -> tuple[Place, ...]:
        """Return the places of a part of a lesson."""
        return tuple(self._in_part[part, lesson])

    def of_activity(self, activity: int, lesson: int) -> tuple[Weighted, ...]:
        """Return the sum that is 1 where a lesson has an activity."""
        return tuple((1, number) for number in self._of_activity[activity, lesson])

    def sum_of(self, places: Iterable[Place], factor: int = 1) -> tuple[Weighted, ...]:
        """Return the sum that counts how many of the places are taken."""
        return tuple((factor, self.place[place]) for place in places)

    def cliques(self, places: Iterable[Place]) -> Iterator[Clique]:
        """Gather places by the part they are in, and also name them one by one where the part holds several.

        In a row that holds for each of them, a clique's sum may stand on the left with its ``most`` times the right.
        """
        parts: dict[tuple[int, int], list[Place]] = defaultdict(list)
        for place in places:
            parts[place[1], place[2]].append(place)
        for (part, lesson), found in parts.items():
            most = self.problem.lessons[lesson].parts[part].most if part >= 0 and not self.fine else 0
            if most == 1 or 1 < most < len(found):
                yield Clique(tuple(found), most)
            if most != 1:
                yield from (Clique((place,), 1) for place in found)

    def before(self, clique: Clique, others: Iterable[Place]) -> tuple[Place, ...]:
        """Return those places before a clique's in its lesson: in earlier parts, or lower in rank in the same part.

        In a circuit squads begin at different stations, so that none comes before another.
        """
        _, part, lesson = clique.places[0]
        ranks, circuit = self.problem.ranks, self.problem.is_circuit(part, lesson)
        highest = max(ranks[activity] for activity, _, _ in clique.places)
        return tuple(
            (other, other_part, other_lesson)
            for other, other_part, other_lesson in others
            if other_lesson == lesson
            and (other_part < part or (other_part == part and not circuit and ranks[other] < highest))
        )

    def used(self, activity: int) -> int:
        """Return the variable that may be 1 only where the unit has an activity at all."""
        if activity not in self._used:
            taken = [pair for lesson in range(len(self.problem.lessons)) for pair in self.of_activity(activity, lesson)]
            self._used[activity] = self.model.choice(f"used {activity}")
            self.model.at_most([(1, self._used[activity]), *less(taken)], 0)
        return self._used[activity]

    # What has happened by a lesson

    def seen(self, activity: int, lesson: int) -> tuple[Weighted, ...]:
        """Return the sum that is 1 where an activity was in some lesson up to this one."""
        if lesson < 0:
            return ()
        key = (activity, lesson)
        if key not in self._seen:
            earlier, now = self.seen(activity, lesson - 1), self.of_activity(activity, lesson)
            self._seen[key] = self._reached(f"seen {activity} by {lesson}", earlier, now)
            self.model.at_least([(1, self._seen[key]), *less(now)], 0)
        return ((1, self._seen[key]),)

    def teaching(self, level: Level, lesson: int) -> tuple[Place, ...]:
        """Return the places of a lesson that teach a level of a skill (skill, practice and game parts)."""
        frames, choices = self.problem.lessons[lesson].parts, self.problem.choices
        return tuple(
            (activity, part, number)
            for activity, part, number in self._in_lesson[lesson]
            if part >= 0 and frames[part].is_core and level in choices[activity].levels
        )

    def met(self, level: Level, lesson: int) -> tuple[Weighted, ...]:
        """Return the sum that is 1 where a level of a skill was taught in some lesson up to this one."""
        if lesson < 0:
            return ()
        key = (level, lesson)
        if key not in self._met:
            places = self.teaching(level, lesson)
            name = f"met {level.skill} level {level.level} by {lesson}"
            number = self._reached(name, self.met(level, lesson - 1), self.sum_of(places))
            for clique in self.cliques(places):
                self.model.at_most([*self.sum_of(clique.places), (-clique.most, number)], 0)
            self._met[key] = number
        return ((1, self._met[key]),)

    def reached(self, level: Level, lesson: int) -> tuple[Weighted, ...]:
        """Return the sum that is 1 where a level of a skill, or a higher one, was taught in some lesson up to this one.

        Where every level has been met in order that is ``met``; lessons taught otherwise are facts that may differ.
        """
        if level.level <= 0:
            return self._always()
        if all(frame.taught is None for frame in self.problem.lessons):
            return self.met(level, lesson)
        higher = range(level.level, self.problem.skills[level.skill].levels + 1)
        key = (level, lesson)
        if lesson >= 0 and key not in self._higher:
            name = f"reached {level.skill} level {level.level} by {lesson}"
            any_met = [pair for number in higher for pair in self.met(Level(level.skill, number), lesson)]
            self._higher[key] = self._reached(name, (), any_met)
            for factor, met in any_met:
                self.model.at_least([(1, self._higher[key]), (-factor, met)], 0)
        return ((1, self._higher[key]),) if lesson >= 0 else ()

    def _always(self) -> tuple[Weighted, ...]:
        if self._one is None:
            self._one = self.model.whole("met before the unit", 1, 1)
        return ((1, self._one),)

    def _reached(self, name: str, earlier: Sequence[Weighted], now: Sequence[Weighted]) -> int:
        number = self.model.choice(name)
        self.model.at_least([(1, number), *less(earlier)], 0)
        self.model.at_most([(1, number), *less(earlier), *less(now)], 0)
        return number

    def rising(self, places: Sequence[Place]) -> Iterator[tuple[tuple[Place, ...], tuple[Weighted, ...]]]:
        """Split places of one lesson by the steps they ask for: at most their easy ones are taken before a step is met.

        Yields, for each step that some place implies, the places that do not imply it and the sum that is 1 where the
        step has been reached after the lesson. It holds where no step is jumped.
        """
        implied = [(place, self._implied(place)) for place in places]
        for level in sorted({level for _, levels in implied for level in levels}, key=lambda each: each.level):
            easy = tuple(
                place
                for place, levels in implied
                if not any(other.skill == level.skill and other.level >= level.level for other in levels)
            )
            yield easy, self.reached(level, places[0][2])

    def _implied(self, place: Place) -> tuple[Level, ...]:
        """Return the steps that have been reached after a lesson in which a place is taken."""
        activity, part, lesson = place
        if part < 0:
            return ()
        levels = self.problem.choices[activity].levels
        if not self.problem.lessons[lesson].parts[part].is_core:
            earlier = [Level(level.skill, level.level - 1) for level in levels]
            levels = tuple(level for level in earlier if level not in levels)
        return tuple(level for level in levels if level.level > 0)

    def practised(self, outcome: int, lesson: int) -> tuple[Weighted, ...]:
        """Return a variable that may be 1 only where a lesson practises an outcome."""
        key = (outcome, lesson)
        if key not in self._practised:
            number = self.model.choice(f"practised {outcome} in {lesson}")
            places = self.practising(outcome, lesson)
            self.model.at_most([(1, number), *less(self.sum_of(places))], 0)
            for easy, reached in self.rising(places) if places and not self.fine else ():
                self.model.at_most([(1, number), *less(self.sum_of(easy)), *less(reached)], 0)
            self._practised[key] = number
        return ((1, self._practised[key]),)

    def practising(self, outcome: int, lesson: int) -> tuple[Place, ...]:
        """Return the places of a lesson that practise an outcome."""
        choices = self.problem.choices
        return tuple(place for place in self._in_lesson[lesson] if outcome in choices[place[0]].practises)

    def assessed(self, goal: Goal, lesson: int) -> int:
        """Return the variable that may be 1 only where a lesson can assess an aim after enough practice.

        A lesson taught has assessed it or not.
        """
        key = (goal, lesson)
        if key not in self._assessed:
            self._assessed[key] = self._make_assessed(goal, lesson)
        return self._assessed[key]

    def _make_assessed(self, goal: Goal, lesson: int) -> int:
        name = f"assessed {goal.outcome} in {lesson}"
        taught = self.problem.lessons[lesson].taught
        if taught is not None:
            fact = int(any(goal.outcome in placed.assess for placed in taught))
            return self.model.whole(name, fact, fact)
        choices = self.problem.choices
        places = [place for place in self._in_lesson[lesson] if goal.outcome in choices[place[0]].assesses]
        number = self.model.choice(name)
        self.model.at_most([(1, number), *less(self.sum_of(places))], 0)
        earlier = [self.practised(goal.outcome, before) for before in range(lesson)]
        if goal.after:
            self.model.at_most([(goal.after, number), *less(pair for pairs in earlier for pair in pairs)], 0)
            first = earlier[: max(0, lesson - goal.after + 1)]
            self.model.at_most([(1, number), *less(pair for pairs in first for pair in pairs)], 0)
        return number

    # Minutes

    def _make_groups(self) -> None:
        members: dict[Group, list[tuple[int, Bounds]]] = defaultdict(list)
        for place in self.problem.places:
            members[self.group(place)].append((self.place[place], self.problem.bounds(*place)))
        for (lesson, part, rate), group in members.items():
            name = f"rate {rate} part {part} lesson {lesson}"
            most_up = sum(bounds.most - bounds.usual for _, bounds in group)
            most_down = sum(bounds.usual - bounds.least for _, bounds in group)
            up = self.model.whole(f"more minutes {name}", 0, most_up)
            down = self.model.whole(f"fewer minutes {name}", 0, most_down)
            self.model.at_most([(1, up), *((bounds.usual - bounds.most, number) for number, bounds in group)], 0)
            self.model.at_most([(1, down), *((bounds.least - bounds.usual, number) for number, bounds in group)], 0)
            self.groups[lesson, part, rate] = (up, down)

    def group(self, place: Place) -> Group:
        """Return the minutes group of a place."""
        activity, part, lesson = place
        frame = self.problem.lessons[lesson].parts[part]
        limited = frame.least_minutes is not None or frame.most_minutes is not None
        return lesson, part if limited else -1, self.problem.rate(activity, part, lesson)

    def minutes(self, lesson: int, part: int | None = None) -> tuple[Weighted, ...]:
        """Return the minutes of a lesson's activities with their set-up, or those of a part with limited minutes."""
        places = self.in_lesson(lesson) if part is None else self.in_part(part, lesson)
        bounds = {place: self.problem.bounds(*place) for place in places}
        usual = tuple((bounds[place].setup + bounds[place].usual, self.place[place]) for place in places)
        groups = [(up, down) for key, (up, down) in self.groups.items() if _holds(key, lesson, part)]
        return usual + tuple(pair for up, down in groups for pair in ((1, up), (-1, down)))

    def moving(self, lesson: int) -> tuple[Weighted, ...]:
        """Return the hundredths of a minute that the children of a lesson move."""
        usual = tuple(
            (self.problem.rate(*place) * self.problem.bounds(*place).usual, self.place[place])
            for place in self.in_lesson(lesson)
        )
        groups = [(key[2], up, down) for key, (up, down) in self.groups.items() if key[0] == lesson]
        return usual + tuple(pair for rate, up, down in groups for pair in ((rate, up), (-rate, down)))


def _holds(group: Group, lesson: int, part: int | None) -> bool:
    return group[0] == lesson and (part is None or group[1] == part)


def less(terms: Iterable[Weighted], times: int = 1) -> Iterator[Weighted]:
    """Return a sum, taken so many times, with every sign turned."""
    return ((-times * factor, variable) for factor, variable in terms)
