"""Planning several units at once, on as many cores as there are, with the same plans as one after the other."""

import os
import signal
from collections.abc import Generator, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import active_children, get_context
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lessonkit.planning.replan import Replanned
    from lessonkit.planning.sequence import Options, Outcome
    from lessonkit.records.library import Library
    from lessonkit.records.plan import Plan


@dataclass(frozen=True, slots=True)
class Task:
    """A unit, the classes to plan it for in order, and the plan that they are to be like, where there is one.

    With ``apart`` every class is planned for itself.
    """

    unit: str
    classes: tuple[str, ...]
    first: "Plan | None" = None
    apart: bool = False


@dataclass(frozen=True, slots=True)
class Done:
    """A unit for a class: what the search found, and how it differs from the first class's plan, if it follows it."""

    unit: str
    school_class: str
    outcome: "Outcome"
    like: "Replanned | None" = None


def plan_task(library: "Library", task: Task, options: "Options") -> Iterator[Done]:
    """Plan a unit for its classes, the later ones like the first."""
    from lessonkit.planning.replan import plan_like
    from lessonkit.planning.sequence import Planned, sequence

    first = task.first
    for school_class in task.classes:
        like = None if first is None else plan_like(library, task.unit, school_class, first, options)
        outcome = sequence(library, task.unit, school_class, options) if like is None else like.outcome
        yield Done(task.unit, school_class, outcome, like)
        if first is None and not task.apart and isinstance(outcome, Planned):
            first = outcome.plan


def plan_tasks(library: "Library", tasks: Sequence[Task], options: "Options") -> Generator[Done, None, None]:
    """Plan several units, each in a process of its own, and yield them in the order of the tasks.

    The search's progress is not told, since several of them go on at once. Whoever stops (Ctrl-C) stops them all.
    """
    workers = min(len(tasks), os.cpu_count() or 1)
    with ProcessPoolExecutor(
        workers, get_context("spawn"), _begin, (library, options.seconds, options.version)
    ) as pool:
        try:
            with _quiet_start():
                found = [pool.submit(_in_process, task) for task in tasks]  # the first starts every worker
            for each in found:
                yield from each.result()
        except BaseException:  # Ctrl-C, or nobody wants the rest: leaving the pool would wait for every search begun
            for process in active_children():
                process.terminate()
            raise


@contextmanager
def _quiet_start() -> Iterator[None]:
    """Let the processes begun here never hear Ctrl-C; ours hears it at the end. Windows has no such mask."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    heard = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, heard)


_HELD: "dict[str, tuple[Library, Options]]" = {}


def _begin(library: "Library", seconds: float | None, version: str) -> None:
    from lessonkit.planning.sequence import Options

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # A terminal tells the whole group; the one who started us ends us.
    _HELD["all"] = library, Options(seconds, None, version)


def _in_process(task: Task) -> list[Done]:
    library, options = _HELD["all"]
    return list(plan_task(library, task, options))
