"""Whether a code is written as a framework's pattern says."""

import re
from functools import lru_cache


def matches(pattern: str, code: str) -> bool:
    """Tell whether the whole of a code is as a pattern says; a pattern that is none matches nothing."""
    rule = compiled(pattern)
    return rule is not None and rule.fullmatch(code) is not None


@lru_cache(maxsize=64)
def compiled(pattern: str, flags: int = 0) -> re.Pattern[str] | None:
    """Return a pattern ready for use, None for one that is none."""
    try:
        return re.compile(pattern, flags)
    except re.error:
        return None
