"""Regular expressions that are compiled when they are first used, since most runs use few of them."""

import re
from collections.abc import Callable, Iterator
from typing import Final


class Pattern:
    """A regular expression with the functions of a compiled one, of which the first that is asked for compiles it."""

    search: Callable[..., re.Match[str] | None]
    match: Callable[..., re.Match[str] | None]
    fullmatch: Callable[..., re.Match[str] | None]
    finditer: Callable[..., Iterator[re.Match[str]]]
    findall: Callable[..., list[str]]
    split: Callable[..., list[str]]
    sub: Callable[..., str]

    def __init__(self, written: str, flags: int = 0) -> None:
        self.written: Final = written
        self.flags: Final = flags

    def __getattr__(self, name: str) -> object:
        """Compile the expression, and keep the function asked for."""
        function: object = getattr(re.compile(self.written, self.flags), name)
        setattr(self, name, function)
        return function
