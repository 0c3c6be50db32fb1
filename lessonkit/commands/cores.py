"""Work on many records spread over the processor's cores, by processes that share what is loaded.

A process made by ``fork`` sees the whole curriculum without copying it, and sends back findings only. Where the system
has no such processes, or one of them fails, its part is done here, so the outcome is always the same.
"""

import gc
import marshal
import os
from collections.abc import Callable, Sequence
from typing import Final, TypeVar

from lessonkit.commands.kept_findings import finding_of, plain
from lessonkit.source.finding import Finding

WORTH_IT: Final = 2_000
"""Records below which a second process costs more than it saves."""
MOST: Final = 4

T = TypeVar("T")


def spread(work: Callable[[Sequence[T]], Sequence[Finding]], items: Sequence[T]) -> tuple[Finding, ...]:
    """Return what some work finds in all items, in no certain order; each process takes every so manieth item."""
    number = cores() if len(items) >= WORTH_IT else 1
    if number == 1:
        return tuple(work(items))
    import signal

    gc.freeze()
    helpers: dict[int, int] = {}
    try:
        for part in range(1, number):
            child, pipe = _start(work, items[part::number])
            helpers[child] = pipe
        found = [*work(items[::number])]
        for part, (child, pipe) in enumerate(tuple(helpers.items()), 1):
            answer = _answer(child, pipe)
            del helpers[child]
            found += work(items[part::number]) if answer is None else answer
        return tuple(found)
    finally:
        for child, pipe in helpers.items():
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            os.close(pipe)
        gc.unfreeze()


def cores() -> int:
    """Return how many processes may work at once: 1 where they cannot share what is loaded."""
    import threading

    if not hasattr(os, "fork") or not hasattr(os, "sched_getaffinity") or threading.active_count() > 1:
        return 1
    return min(MOST, len(os.sched_getaffinity(0)))


def _start(work: Callable[[Sequence[T]], Sequence[Finding]], items: Sequence[T]) -> tuple[int, int]:
    """Start a process on some items, and return its number and the end of the pipe to read its findings from."""
    reading, writing = os.pipe()
    child = os.fork()
    if child:
        os.close(writing)
        return child, reading
    try:
        import signal

        signal.signal(signal.SIGINT, signal.SIG_DFL)
        os.close(reading)
        answer = marshal.dumps([plain(finding) for finding in work(items)])
        with os.fdopen(writing, "wb") as stream:
            stream.write(answer)
        os._exit(0)
    finally:
        os._exit(1)


def _answer(child: int, pipe: int) -> list[Finding] | None:
    """Return what a process has found, None where it failed."""
    with os.fdopen(pipe, "rb", closefd=False) as stream:
        answer = stream.read()
    _, status = os.waitpid(child, 0)
    os.close(pipe)
    return [finding_of(each) for each in marshal.loads(answer)] if status == 0 else None
