"""A year problem together with the records it was made from, so that numbers can be put into words."""

from dataclasses import dataclass, field
from datetime import date

from lessonkit.planning.said import Said
from lessonkit.planning.write_plan import month_and_day
from lessonkit.planning.year.problem import Span, YearProblem
from lessonkit.records.library import Library
from lessonkit.records.school import School, SchoolClass
from lessonkit.records.year import Year
from lessonkit.source.location import FieldPath


@dataclass(frozen=True)
class YearCase:
    """A problem with its records.

    ``mondays`` are the first days of the weeks; ``rows`` the classes by row; ``lasts`` the day of the last lesson of
    every block's spans, by block and first week; ``lessons`` how many the year has, by row; ``skills``, ``families``
    and ``outcomes`` the names of the problem's numbers.
    """

    problem: YearProblem
    library: Library
    year: Year
    school: School
    rows: tuple[tuple[SchoolClass, ...], ...]
    mondays: tuple[date, ...]
    lasts: tuple[dict[int, date], ...]
    lessons: tuple[int, ...]
    skills: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    outcomes: tuple[str, ...] = ()
    faults: tuple[Said, ...] = field(default=())

    def title(self, block: int) -> str:
        """Return the title of a block's unit."""
        return self.library.units[self.problem.blocks[block].id].title

    def week(self, week: int) -> str:
        """Return a week as a sentence names it."""
        return f"the week of {month_and_day(self.mondays[week])}"

    def classes(self, row: int) -> str:
        """Return the classes of a row as a sentence names them."""
        return " and ".join(one.title for one in self.rows[row])

    def stretch(self, span: Span) -> str:
        """Return a stretch of weeks as a sentence names it."""
        return f"from {self.week(span.first)} to {self.week(span.last)}"

    def in_year(self, path: FieldPath, says: str) -> Said:
        """Place a sentence in the year request."""
        return Said("year", self.year.id, path, says)

    def at_unit(self, block: int, says: str, *path: str | int) -> Said:
        """Place a sentence at a unit of the year request."""
        return self.in_year(("units", block, *path), says)
