"""An optional unit is worth its place when it brings outcomes that no other unit of the year has."""

from collections.abc import Iterator

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "further-outcomes"


def _only_optional(problem: YearProblem) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield the outcomes that only optional blocks cover, with those blocks."""
    sure = {outcome for block in problem.blocks if not block.optional for outcome in block.covers}
    wanted = {outcome for block in problem.blocks if block.optional for outcome in block.covers}
    for outcome in sorted(wanted - sure):
        yield outcome, tuple(number for number, block in enumerate(problem.blocks) if outcome in block.covers)


def _add(variables: YearVariables, problem: YearProblem) -> None:
    weight = problem.weights[CODE]
    for outcome, blocks in _only_optional(problem):
        covered = variables.model.choice(f"outcome {outcome} is covered")
        chosen = [(-1, number) for block in blocks for _, number in variables.choices[block]]
        variables.model.at_most([(1, covered), *chosen], 0)
        variables.model.pay([(-weight, covered)], weight)


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (outcome,)) for outcome, blocks in _only_optional(problem) if not schedule.placed(blocks)
    )


def _say(instance: Instance, case: YearCase) -> Said:
    code = case.outcomes[int(instance.key[0])]
    return case.in_year(("units",), f"{code} is practiced only in optional units that are left out.")


TERM = YearTerm(
    CODE,
    "preferred",
    lambda problem: problem.weights.get(CODE, 0) > 0 and any(_only_optional(problem)),
    _add,
    _measure,
    _say,
)
