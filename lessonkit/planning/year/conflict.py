"""Why there is no year map: counting first, then a smallest set of demands that cannot hold together."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from lessonkit.planning.halving import smallest
from lessonkit.planning.linear import Instance, Linear, Row
from lessonkit.planning.said import Said
from lessonkit.planning.solve import feasible
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.registry import BY_CODE, TERMS

_EFFORT = 5.0


def because(case: YearCase, model: Linear) -> tuple[Said, ...]:
    """Return the sentences that say why a year without a map has none."""
    counted = (*_unplaceable(case), *_circle(case), *_too_many_lessons(case))
    if counted:
        return counted
    rows: dict[Instance, list[Row]] = defaultdict(list)
    for row in model.rows:
        if row.why is not None:
            rows[row.why].append(row)
    always = [row for row in model.rows if row.why is None]

    def possible(demands: Sequence[Instance]) -> bool | None:
        chosen = [row for demand in demands for row in rows[demand]]
        return feasible(model, [*always, *chosen], _EFFORT)

    blamed = smallest(possible, (), tuple(rows), added=False)
    return tuple(_sentences(blamed, case))


def _sentences(blamed: Sequence[Instance], case: YearCase) -> Iterator[Said]:
    """Yield a sentence for every demand; units that a class has no room for come in one, with what would help."""
    rooms = [demand for demand in blamed if demand.term == "room"]
    placed = [demand for demand in blamed if demand.term == "placed"] if rooms else []
    for demand in rooms:
        yield _no_room(int(demand.key[0]), [int(each.key[0]) for each in placed], case)
    codes = [term.code for term in TERMS]
    others = [demand for demand in blamed if demand not in rooms and demand not in placed]
    for demand in sorted(others, key=lambda demand: (-codes.index(demand.term), demand.key)):
        yield BY_CODE[demand.term].say(demand, case)


def _no_room(row: int, blocks: list[int], case: YearCase) -> Said:
    here = [block for block in blocks if row in case.problem.blocks[block].rows]
    lessons = sum(case.library.units[case.problem.blocks[block].id].lessons or 0 for block in here)
    titles = ", ".join(case.title(block) for block in here)
    says = (
        f"There is no room for these units of {case.classes(row)} one after another: {titles}. They have {lessons} "
        f"lessons; the year has {case.lessons[row]} for the class, some of them lost where a unit ends within a week. "
        "Leave one out, shorten some, or make one optional."
    )
    return case.in_year(("units",), says)


def _shortest(case: YearCase, block: int) -> int:
    return min((span.last - span.first + 1 for span in case.problem.blocks[block].spans), default=0)


def _unplaceable(case: YearCase) -> Iterator[Said]:
    """Yield a sentence for every unit that the calendar alone leaves no weeks for."""
    for number, block in enumerate(case.problem.blocks):
        if not block.spans and not block.optional:
            unit = case.library.units[block.id]
            length = f"{unit.lessons} lessons" if unit.lessons is not None else f"{unit.weeks} weeks"
            says = f"{unit.title} has {length}, and the school year has no room for them."
            yield case.at_unit(number, says, "unit")


def _circle(case: YearCase) -> tuple[Said, ...]:
    """Return a sentence for units that follow each other in a circle, or nothing."""
    blocks = case.problem.blocks
    state = [0] * len(blocks)
    path: list[int] = []

    def visit(block: int) -> list[int]:
        state[block] = 1
        path.append(block)
        for earlier in blocks[block].follows:
            if state[earlier] == 1:
                return path[path.index(earlier) :]
            if state[earlier] == 0 and (circle := visit(earlier)):
                return circle
        path.pop()
        state[block] = 2
        return []

    for block in range(len(blocks)):
        if state[block] == 0 and (circle := visit(block)):
            names = " follows ".join(case.title(each) for each in [*circle, circle[0]])
            return (case.at_unit(circle[0], f"These units follow each other in a circle: {names}.", "follows"),)
    return ()


def _too_many_lessons(case: YearCase) -> Iterator[Said]:
    """Yield a sentence for every class whose units need more lessons, or weeks, than the year has."""
    problem = case.problem
    for row, blocks in enumerate(problem.by_row):
        firm = [block for block in blocks if not problem.blocks[block].optional]
        lessons = sum(case.library.units[problem.blocks[block].id].lessons or 0 for block in firm)
        there = case.lessons[row]
        if lessons > there:
            title = case.classes(row)
            says = f"The units of {title} have {lessons} lessons; the school year has {there} for the class."
            yield case.in_year(("units",), f"{says} Leave one out, shorten some, or make one optional.")
        elif sum(_shortest(case, block) for block in firm) > problem.weeks:
            yield _no_room(row, firm, case)
