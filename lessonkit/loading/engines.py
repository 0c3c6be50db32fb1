"""The two engines that hold values against a JSON Schema; the only door to them.

The fast one answers where it is installed; the other gives the same faults where it is not.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from lessonkit.source.location import FieldPath

Faults = list[tuple[FieldPath, str]]
"""Where a value breaks a limit, and the keyword of the schema that says so."""
Check = Callable[[Any], Faults]
Engine = Callable[[dict[str, Any]], Check]
"""Takes a schema, gives the function that finds a value's faults."""


def best_engine() -> Engine:
    """Return the fast engine where it is installed, the plain one elsewhere."""
    try:
        import jsonschema_rs  # noqa: F401  # only asked whether it is there
    except ImportError:
        return plain_engine
    return fast_engine


def best_gate(schema: dict[str, Any]) -> Callable[[Any], bool]:
    """Return the quickest function that tells whether a value has no fault."""
    try:
        import jsonschema_rs
    except ImportError:
        check = plain_engine(schema)
        return lambda value: not check(value)
    is_valid: Callable[[Any], bool] = jsonschema_rs.Draft202012Validator(schema).is_valid
    return is_valid


def fast_engine(schema: dict[str, Any]) -> Check:
    """Find faults with jsonschema-rs."""
    import jsonschema_rs

    validator = jsonschema_rs.Draft202012Validator(schema)

    def check(value: Any) -> Faults:
        if validator.is_valid(value):
            return []
        return [
            (_written(value, error.instance_path), str(error.schema_path[-1])) for error in validator.iter_errors(value)
        ]

    return check


def plain_engine(schema: dict[str, Any]) -> Check:
    """Find faults with jsonschema."""
    import jsonschema

    extend: Any = jsonschema.validators.extend
    kind = extend(jsonschema.Draft202012Validator, {"pattern": _pattern})
    validator = kind(schema)

    def check(value: Any) -> Faults:
        return [(tuple(error.absolute_path), str(error.validator)) for error in validator.iter_errors(value)]

    return check


def _pattern(validator: Any, pattern: str, value: Any, schema: Any) -> Iterator[Any]:
    """Match as the standard for patterns (ECMA-262) has it: the end is the end, and digits are 0 to 9."""
    from jsonschema import ValidationError

    if isinstance(value, str) and not re.search(re.sub(r"(?<!\\)\$$", r"\\Z", pattern), value, re.ASCII):
        yield ValidationError(f"{value!r} does not match {pattern!r}")


def _written(value: Any, path: Sequence[str | int]) -> FieldPath:
    """Return a path with names in tables and numbers in lists; the engine takes a name ``1`` for a number."""
    steps: list[str | int] = []
    for step in path:
        steps.append(str(step) if isinstance(value, dict) else step)
        value = value[steps[-1]]
    return tuple(steps)
