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
    counted = (*_unplaceable(case), *_circle(case), *_too_many_weeks(case))
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
    codes = [term.code for term in TERMS]
    order = sorted(blamed, key=lambda demand: (-codes.index(demand.term), demand.key))
    return tuple(BY_CODE[demand.term].say(demand, case) for demand in order)


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


def _too_many_weeks(case: YearCase) -> Iterator[Said]:
    """Yield a sentence for every class whose units need more weeks, at their shortest, than the year has."""
    problem = case.problem
    for row, blocks in enumerate(problem.by_row):
        firm = [problem.blocks[block] for block in blocks if not problem.blocks[block].optional]
        needed = sum(min(span.last - span.first + 1 for span in block.spans) for block in firm)
        if needed > problem.weeks:
            title = case.classes[row].title
            says = f"The units of {title} need {needed} weeks; the school year has {problem.weeks}."
            yield case.in_year(("units",), f"{says} Leave one out, shorten some, or make one optional.")
