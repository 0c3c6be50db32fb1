"""Meeting an exported Word file again: was it edited since, and how."""

from lessonkit.writers.standing import Met, Standing
from lessonkit.writers.word.changes import changes, sentences
from lessonkit.writers.word.content import read_content
from lessonkit.writers.word.opening import UnsafeFileError, unpack
from lessonkit.writers.word.record_of_export import exported_content, is_untouched


def meet_word(old: bytes, new: bytes) -> Met:
    """Return how a Word file stands; for an edited one with what differs from what was exported.

    A file whose edits are in the new one already, as after they were brought back, counts as saved again.
    """
    if is_untouched(old):
        return Met(Standing.UNTOUCHED)
    try:
        parts = unpack(old)
        exported = exported_content(parts)
        if exported is None:
            return Met(Standing.ANOTHERS)
        now = read_content(parts)
    except UnsafeFileError as fault:
        return Met(Standing.EDITED, (f"It cannot be compared: the file {fault}.",))
    found = changes(exported.lines, now)
    if not found or not changes(read_content(unpack(new)), now):
        return Met(Standing.SAVED_AGAIN)
    return Met(Standing.EDITED, tuple(sentences(found)))
