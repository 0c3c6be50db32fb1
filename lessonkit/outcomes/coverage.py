"""Which outcomes of a grade a set of activities serves, and which it leaves out."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from lessonkit.outcomes.elementary import elementary_grades
from lessonkit.records.activity import Activity, How
from lessonkit.records.framework import Framework, Outcome

Gap = Literal["not-served", "not-practised", "not-assessed"]
"""What an outcome lacks: any activity, one that practises it, one that assesses it."""


@dataclass(frozen=True, slots=True)
class Served:
    """An outcome, and the ids of the activities that introduce, practise and assess it, in the order of their ids."""

    outcome: Outcome
    introduced: tuple[str, ...]
    practised: tuple[str, ...]
    assessed: tuple[str, ...]

    @property
    def gap(self) -> Gap | None:
        """The first thing missing, or None where the outcome is practised and assessed."""
        if not (self.introduced or self.practised or self.assessed):
            return "not-served"
        if not self.practised:
            return "not-practised"
        return None if self.assessed else "not-assessed"


@dataclass(frozen=True, slots=True)
class Coverage:
    """The active outcomes of a grade in a framework's order, each with the activities that serve it."""

    framework: str
    grade: str
    rows: tuple[Served, ...]

    def gaps(self, gap: Gap) -> tuple[str, ...]:
        """Return the codes of the outcomes that lack something."""
        return tuple(row.outcome.code for row in self.rows if row.gap == gap)

    def share(self, how: How) -> float:
        """Return the share of the outcomes, from 0 to 1, that are served in a way; 0 where the grade has none."""
        return sum(bool(getattr(row, how)) for row in self.rows) / len(self.rows) if self.rows else 0.0


def active_outcomes(framework: Framework, grade: str) -> tuple[Outcome, ...]:
    """Return the outcomes of a grade (K to 5) that ask something of a child, in the framework's order."""
    return tuple(o for o in framework.outcomes if o.status == "active" and grade in elementary_grades(o))


def coverage(framework: Framework, grade: str, activities: Iterable[Activity]) -> Coverage:
    """Work out which outcomes of a grade the activities for that grade serve.

    Activities for other grades do not count, and neither do codes that are not spelt as the framework spells them.
    """
    taught = sorted((activity for activity in activities if grade in activity.grades), key=lambda each: each.id)
    rows = tuple(_served(outcome, framework.id, taught) for outcome in active_outcomes(framework, grade))
    return Coverage(framework.id, grade, rows)


def _served(outcome: Outcome, framework: str, taught: list[Activity]) -> Served:
    def who(how: How) -> tuple[str, ...]:
        return tuple(each.id for each in taught if how in each.outcomes.get(framework, {}).get(outcome.code, ()))

    return Served(outcome, who("introduced"), who("practised"), who("assessed"))
