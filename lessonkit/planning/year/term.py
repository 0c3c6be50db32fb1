"""What a term of the year map is, and the variables that all of them share."""

from collections.abc import Callable
from dataclasses import dataclass

from lessonkit.planning.linear import Instance, Linear
from lessonkit.planning.said import Said
from lessonkit.planning.term import Kind
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Span, YearProblem, YearSchedule


@dataclass(frozen=True, slots=True)
class YearVariables:
    """The model, and for every block its spans with the variable that chooses each."""

    model: Linear
    choices: tuple[tuple[tuple[Span, int], ...], ...]


@dataclass(frozen=True, slots=True)
class YearTerm:
    """A term of the year map; its parts are those of the sequencer's ``Term``."""

    code: str
    kind: Kind
    applies: Callable[[YearProblem], bool]
    add: Callable[[YearVariables, YearProblem], None]
    measure: Callable[[YearSchedule, YearProblem], tuple[Instance, ...]]
    say: Callable[[Instance, YearCase], Said]


def variables_of(problem: YearProblem) -> YearVariables:
    """Return a model with one yes-or-no variable for every span of every block."""
    model = Linear()
    choices = tuple(
        tuple((span, model.choice(f"{block.id} in weeks {span.first} to {span.last}")) for span in block.spans)
        for block in problem.blocks
    )
    return YearVariables(model, choices)
