"""Classes use the same equipment in the same weeks, so that a set-up can stay out from one class to the next.

Each skill whose equipment is out in a week costs one unit, however many classes use it then.
"""

from collections.abc import Iterator

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "few-setups"


def _users(problem: YearProblem) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield the skills that more than one block puts out equipment for, with those blocks."""
    for setup in range(problem.setups):
        blocks = tuple(number for number, block in enumerate(problem.blocks) if setup in block.setups)
        if len(blocks) > 1:
            yield setup, blocks


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for setup, blocks in _users(problem):
        for week in range(problem.weeks):
            out = variables.model.choice(f"set-up {setup} out in week {week}")
            variables.model.pay([(problem.weights[CODE], out)])
            for block in blocks:
                here = [(1, number) for span, number in variables.choices[block] if week in span]
                if here:
                    variables.model.at_most([*here, (-1, out)], 0)


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    given_up = []
    for setup, blocks in _users(problem):
        weeks = {week for span, _ in schedule.placed(blocks) for week in range(span.first, span.last + 1)}
        if weeks:
            given_up.append(Instance(CODE, (setup,), len(weeks)))
    return tuple(given_up)


def _say(instance: Instance, case: YearCase) -> Said:
    skill = case.skills[int(instance.key[0])]
    weeks = "1 week" if instance.amount == 1 else f"{instance.amount} weeks"
    return case.in_year(("units",), f"The equipment for {skill} is out in {weeks} of the year.")


TERM = YearTerm(
    CODE, "preferred", lambda problem: problem.weights.get(CODE, 0) > 0 and any(_users(problem)), _add, _measure, _say
)
