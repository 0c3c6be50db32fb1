"""How an exported file stands when it is met again: untouched, merely saved again, edited, or another's."""

from dataclasses import dataclass
from enum import Enum

from lessonkit.writers.seal import has_seal, is_untouched


class Standing(Enum):
    """What became of a file since it was exported."""

    UNTOUCHED = "untouched"
    SAVED_AGAIN = "saved again"
    EDITED = "edited"
    ANOTHERS = "another's"


@dataclass(frozen=True, slots=True)
class Met:
    """A file met again, and for an edited one what differs, a sentence a line (none where nobody can tell)."""

    standing: Standing
    says: tuple[str, ...] = ()

    @property
    def may_go(self) -> bool:
        """Whether nothing is lost when the file is replaced."""
        return self.standing in (Standing.UNTOUCHED, Standing.SAVED_AGAIN)


def meet_text(old: bytes, _new: bytes) -> Met:
    """Return how a sealed text file stands, such as a web page or a calendar."""
    if is_untouched(old):
        return Met(Standing.UNTOUCHED)
    return Met(Standing.EDITED if has_seal(old) else Standing.ANOTHERS)
