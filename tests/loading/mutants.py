"""Records with one value changed: what a slip of the hand, or a bad day, makes of a record."""

import copy
from collections.abc import Iterator
from typing import Any

STRANGE: tuple[Any, ...] = (
    None,
    True,
    "",
    "x y",
    "K-9",
    -1,
    0,
    1.5,
    10**30,
    [],
    ["x", "x"],
    {},
    {"a": None},
    "w" * 5000,
)


def mutants(record: dict[str, Any], every: int = 1, strange: tuple[Any, ...] = STRANGE) -> Iterator[Any]:
    """Give copies of a record: each with one value exchanged, taken away, doubled, or one field more.

    ``every`` takes only each so-manieth of them.
    """
    number = 0
    for path in _paths(record):
        for change in (*strange, _AWAY, _DOUBLE, _MORE):
            number += 1
            if number % every == 0:
                yield _changed(record, path, change)


def how_many(record: dict[str, Any], strange: tuple[Any, ...] = STRANGE) -> int:
    """Return how many copies ``mutants`` gives of a record."""
    return sum(1 for _ in _paths(record)) * (len(strange) + 3)


_AWAY, _DOUBLE, _MORE = object(), object(), object()


def _paths(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, inner in steps:
        yield (*path, step)
        yield from _paths(inner, (*path, step))


def _changed(record: dict[str, Any], path: tuple[Any, ...], change: Any) -> Any:
    whole = copy.deepcopy(record)
    around: Any = whole
    for step in path[:-1]:
        around = around[step]
    if change is _AWAY:
        del around[path[-1]]
    elif change is _MORE and isinstance(around, dict):
        around["stranger"] = 1
    elif change is _MORE or change is _DOUBLE:
        around[path[-1]] = [around[path[-1]]] * 2
    else:
        around[path[-1]] = change
    return whole
