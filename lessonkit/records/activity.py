"""An activity: one thing a class does, with everything needed to teach it."""

from typing import Literal

import msgspec

from lessonkit.records.measures import GradeBand, Length
from lessonkit.records.record import Part, Record

LessonPart = Literal["warm-up", "skill", "practice", "game", "closing"]
LESSON_PARTS: tuple[LessonPart, ...] = ("warm-up", "skill", "practice", "game", "closing")
"""The parts of a lesson in their order."""
CORE_PARTS: tuple[LessonPart, ...] = ("skill", "practice", "game")
"""The parts of a lesson that teach: skills go forward here; warm-ups and closings may return to what is known."""
How = Literal["introduced", "practised", "assessed"]
Form = Literal["individuals", "pairs", "threes", "fours", "teams", "squads", "whole-class"]
UnevenRule = Literal["larger-group", "smaller-group", "rotate-in", "teacher-joins"]
Per = Literal["child", "pair", "group", "station", "class"]
Effort = Literal["rest", "light", "moderate", "vigorous"]
Where = Literal["indoors", "outdoors", "either"]
Thing = Literal[
    "child", "teacher", "cone", "spot", "hoop", "ball", "net", "line", "target", "box", "bench", "mat", "goal", "rope"
]


class SkillStep(Part, frozen=True, kw_only=True):
    """A named step of a skill's progression."""

    skill: str
    step: str


class Minutes(Part, frozen=True, kw_only=True):
    """How long an activity runs, in whole minutes; ``setup`` is spent before the children start."""

    least: int
    usual: int
    most: int
    setup: int = 0


class Uneven(Part, frozen=True, kw_only=True):
    """What happens with the children left over when the class does not divide into equal groups.

    ``rule``: ``larger-group`` (a group takes one more), ``smaller-group`` (a group works with fewer), ``rotate-in``
    (the extra child changes in), ``teacher-joins``. ``say`` is the sentence for the teacher.
    """

    rule: UnevenRule
    say: str


class SquadSize(Part, frozen=True, kw_only=True):
    """The least and the most children in a squad."""

    least: int
    most: int


class Organisation(Part, frozen=True, kw_only=True):
    """How the class is grouped and who moves when.

    ``side`` is the number of children on a side when ``form`` is ``teams`` (two sides a group); ``squad`` the sizes
    when it is ``squads``. ``at_once`` is how many children of a group move at the same time, None for all of them;
    ``waiting`` is what the others do meanwhile; ``turn_seconds`` is how long one turn lasts.
    """

    form: Form
    side: int | None = None
    squad: SquadSize | None = None
    uneven: Uneven | None = None
    at_once: int | None = None
    waiting: str | None = None
    turn_seconds: int | None = None


class Need(Part, frozen=True, kw_only=True):
    """An item of equipment: ``count`` of it for every child, pair, group, station, or for the class."""

    item: str
    count: int
    per: Per
    note: str | None = None


class Floor(Part, frozen=True, kw_only=True):
    """The floor one group needs: its area, and the clear distance kept around it.

    For ``individuals`` a group is one child; for ``whole-class`` it is everybody. ``most_children`` is how many the
    area holds at once, with ``if_more`` the rule for a larger number.
    """

    length: Length
    width: Length
    safety: Length | None = None
    wall: bool = False
    where: Where = "either"
    most_children: int | None = None
    if_more: str | None = None

    @property
    def clear(self) -> float:
        """The metres kept clear around the area, 0 where the record names none."""
        return self.safety.metres if self.safety else 0.0


class SeeSay(Part, frozen=True, kw_only=True):
    """What a teacher may see, and what to say then."""

    see: str
    say: str


class Inclusion(Part, frozen=True, kw_only=True):
    """How everyone takes part: changes of space, task, equipment and people."""

    space: tuple[str, ...] = ()
    task: tuple[str, ...] = ()
    equipment: tuple[str, ...] = ()
    people: tuple[str, ...] = ()


class LookFor(Part, frozen=True, kw_only=True):
    """A criterion tied to one of the activity's outcomes, and the same in a child's words."""

    outcome: str
    criterion: str
    i_can: str


class Measured(Part, frozen=True, kw_only=True):
    """A count or a time that a child tries to beat; ``seconds`` is how long the child counts for."""

    what: str
    measure: Literal["count", "time"]
    unit: str
    better: Literal["higher", "lower"] = "higher"
    seconds: int | None = None


class Question(Part, frozen=True, kw_only=True):
    """A question for the closing, and the answer to hope for."""

    ask: str
    listen_for: str


class Word(Part, frozen=True, kw_only=True):
    """A word to learn, explained for children."""

    word: str
    means: str


Point = tuple[float, float]


class Mark(Part, frozen=True, kw_only=True):
    """Something in a floor drawing, in metres: x along the length from the left, y along the width from the near edge.

    A point has ``at``; a net, line, bench or rope runs from ``at`` to ``to``.
    """

    what: Thing
    at: Point
    to: Point | None = None
    label: str | None = None


class Path(Part, frozen=True, kw_only=True):
    """A way that a child or a ball takes through its points, in metres."""

    what: Literal["child", "ball"]
    through: tuple[Point, ...]


class Drawing(Part, frozen=True, kw_only=True):
    """A floor drawing of one group inside its ``floor`` area."""

    marks: tuple[Mark, ...]
    paths: tuple[Path, ...] = ()


class Version(Part, frozen=True, kw_only=True):
    """What changes for some grades. A field given here stands in place of the activity's own."""

    grades: GradeBand
    changes: tuple[str, ...]
    minutes: Minutes | None = None
    organisation: Organisation | None = None
    equipment: tuple[Need, ...] | None = None
    floor: Floor | None = None
    cues: tuple[str, ...] | None = None
    easier: tuple[str, ...] | None = None
    harder: tuple[str, ...] | None = None
    look_for: tuple[LookFor, ...] | None = None
    measured: Measured | None = None
    drawing: Drawing | None = None


class Activity(Record, frozen=True, kw_only=True):
    """One activity. ``outcomes`` maps framework id to code to how the activity serves it."""

    summary: str
    grades: GradeBand
    parts: tuple[LessonPart, ...]
    station: bool = False
    skills: tuple[SkillStep, ...] = ()
    builds_on: tuple[str, ...] = ()
    outcomes: dict[str, dict[str, tuple[How, ...]]]
    minutes: Minutes
    organisation: Organisation
    equipment: tuple[Need, ...] = ()
    floor: Floor
    effort: Effort
    steps: str
    stop_signal: str | None = None
    cues: tuple[str, ...]
    see_say: tuple[SeeSay, ...] = ()
    easier: tuple[str, ...]
    harder: tuple[str, ...]
    inclusion: Inclusion
    safety: tuple[str, ...]
    look_for: tuple[LookFor, ...] = ()
    measured: Measured | None = None
    questions: tuple[Question, ...] = ()
    words: tuple[Word, ...] = ()
    drawing: Drawing | None = None
    versions: tuple[Version, ...] = ()

    def served(self, framework: str, how: How) -> tuple[str, ...]:
        """Return the outcome codes of a framework that the activity introduces, practises or assesses."""
        return tuple(code for code, ways in self.outcomes.get(framework, {}).items() if how in ways)

    def version_for(self, grade: str) -> "Version | None":
        """Return the version written for a grade, or None where the activity is taught as it stands."""
        return next((version for version in self.versions if grade in version.grades), None)

    def for_grade(self, grade: str) -> "Activity":
        """Return the activity as taught to a grade: the fields of its version stand in place of its own."""
        version = self.version_for(grade)
        if version is None:
            return self
        changed = {
            name: getattr(version, name)
            for name in version.__struct_fields__
            if name not in ("grades", "changes") and getattr(version, name) is not None
        }
        return msgspec.structs.replace(self, **changed)
