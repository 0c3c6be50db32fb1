"""What a term is: one requirement or wish, stated to the solver and measured without it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.variables import Variables

Kind = Literal["required", "preferred"]


@dataclass(frozen=True, slots=True)
class Term:
    """A term of the sequencer.

    ``applies`` tells whether a problem has any use for it; ``add`` states it in the model; ``measure`` finds, in plain
    Python, the demands that a schedule breaks (required) or what it gives up (preferred); each unit given up costs the
    problem's weight for the code. Both must agree: the audit compares them on every plan. ``say`` puts an instance into
    one sentence: a demand as it should be, or what was given up. ``together`` says all that was given up of a wish in
    as few sentences as can be, where there is a shorter way than one after the other.
    """

    code: str
    kind: Kind
    applies: Callable[[Problem], bool]
    add: Callable[[Variables, Problem], None]
    measure: Callable[[Schedule, Problem], tuple[Instance, ...]]
    say: Callable[[Instance, Case], Said]
    together: Callable[[Sequence[Instance], Case], tuple[str, ...]] | None = None
