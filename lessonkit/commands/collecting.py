"""Python's search for unused circles of values, of which reading and checking records makes almost none."""

import gc


class NoCollecting:
    """Keeps Python from that search while it is open. Loads nothing, so that the quickest check can afford it."""

    def __enter__(self) -> None:
        self._was_on = gc.isenabled()
        gc.disable()

    def __exit__(self, *_: object) -> None:
        if self._was_on:
            gc.enable()
