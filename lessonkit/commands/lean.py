"""Modules that others load and hardly ever use, put off until somebody does, so that a short check stays short."""

import sys

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


class _Later(type(sys)):  # type: ignore[misc]  # the type of modules, which ``types`` would have to be loaded for
    """Stands for a module until one of its values is asked for."""

    def __getattr__(self, name: str) -> "Any":
        from importlib import import_module

        if sys.modules.get(self.__name__) is self:
            del sys.modules[self.__name__]
        self.__dict__.update(import_module(self.__name__).__dict__)
        return self.__dict__[name]


def put_off() -> None:
    """Load the library of records without what it loads for older Pythons, and ``inspect`` only when it is used.

    The library takes the functions of ``typing`` where it does not find those of ``typing_extensions``; from Python
    3.11 on they are the same.
    """
    if "inspect" not in sys.modules:
        sys.modules["inspect"] = _Later("inspect")
    if "msgspec" in sys.modules or "typing_extensions" in sys.modules:
        return
    sys.modules["typing_extensions"] = None  # type: ignore[assignment]  # so Python marks what cannot be imported
    try:
        import msgspec  # noqa: F401  # only to have it loaded in this way
    finally:
        del sys.modules["typing_extensions"]
