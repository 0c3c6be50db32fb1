"""A problem stated to the solver: every term that applies, in the order of the registry."""

from lessonkit.planning.problem import Problem
from lessonkit.planning.registry import TERMS
from lessonkit.planning.term import Kind
from lessonkit.planning.variables import Variables


def build(problem: Problem, *, fine: bool = False, kinds: tuple[Kind, ...] = ("required", "preferred")) -> Variables:
    """Return the variables of a problem, whose model holds the rows and costs of its terms of these kinds.

    ``fine`` keeps every demand in rows of its own, for conflicts.
    """
    variables = Variables(problem, fine=fine)
    for term in TERMS:
        if term.kind in kinds and term.applies(problem):
            term.add(variables, problem)
    return variables
