"""Regular expressions that are compiled when they are first used, since most runs use few of them."""

import re
from collections.abc import Callable, Iterator
from typing import Final


class Pattern:
    """A regular expression with the functions of a compiled one, of which the first that is asked for compiles it."""

    search: Callable[[str], re.Match[str] | None]
    match: Callable[[str], re.Match[str] | None]
    fullmatch: Callable[[str], re.Match[str] | None]
    finditer: Callable[[str], Iterator[re.Match[str]]]
    findall: Callable[[str], list[str]]
    split: Callable[[str], list[str]]
    sub: Callable[[str | Callable[[re.Match[str]], str], str], str]

    def __init__(self, written: str, flags: int = 0) -> None:
        self.written: Final = written
        self.flags: Final = flags

    def __getattr__(self, name: str) -> object:
        """Compile the expression, and keep the function asked for."""
        function: object = getattr(re.compile(self.written, self.flags), name)
        setattr(self, name, function)
        return function
