"""The school's own look: the Word file that its record or an option names, checked before anything is written."""

from pathlib import Path
from typing import TYPE_CHECKING, Final

from lessonkit.commands.cannot import CannotRunError

if TYPE_CHECKING:
    from lessonkit.records.school import School
    from lessonkit.writers.options import SchoolLook

_LARGEST: Final = 64 * 2**20


def school_look(given: str | None, school: "School | None") -> "SchoolLook | None":
    """Return the look that an option or else the school's record, if there is one, asks for; None where neither does.

    Raises CannotRunError with one sentence for a file that cannot be read, is broken or is not safe to use.
    """
    from lessonkit.writers.options import SchoolLook
    from lessonkit.writers.word.base import read_base
    from lessonkit.writers.word.opening import UnsafeFileError

    styles = tuple(sorted(school.look.styles.items())) if school and school.look else ()
    if given is not None:
        path = Path(given)
    elif school and school.look:
        path = Path(school.path).parent / school.look.document.replace("\\", "/")
    else:
        return None
    try:
        if path.stat().st_size > _LARGEST:
            raise CannotRunError(f"{path.as_posix()} is too large for a base of pages.")
        look = SchoolLook(path.read_bytes(), styles)
        read_base(look)
    except OSError as fault:
        raise CannotRunError(f"{path.as_posix()} could not be read: {fault.strerror or fault}.") from None
    except UnsafeFileError as fault:
        raise CannotRunError(f"{path.as_posix()} {fault}.") from None
    return look
