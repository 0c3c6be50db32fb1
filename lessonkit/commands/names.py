"""Names that a teacher supplies in a file of her own: read, shown, and stored nowhere."""

from collections import Counter
from pathlib import Path

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import quoted

CAUTION = "Names stay in your file and in pages you ask for; share them only as your school's rules on records allow."


def read_names(written: str, most: int) -> tuple[str, ...]:
    """Return the names of a text file with one name or pair of initials a line, in its order; empty lines are skipped.

    Raises CannotRunError where the file cannot be read, holds no name, one twice, or more than ``most``.
    """
    path = Path(written)
    try:
        text = path.read_text("utf-8-sig")
    except UnicodeDecodeError:
        raise CannotRunError(f"{written} is not a plain text file (UTF-8) with one name a line.") from None
    except OSError as fault:
        raise CannotRunError(f"{written} could not be read: {fault.strerror or fault}.") from None
    names = tuple(" ".join(line.split()) for line in text.splitlines() if line.strip())
    if not names:
        raise CannotRunError(f"{written} holds no names; write one a line.")
    if len(names) > most:
        raise CannotRunError(f"{written} holds {len(names)} names; more than {most} are too many for one class.")
    twice = [name for name, count in Counter(names).items() if count > 1]
    if twice:
        raise CannotRunError(
            f"{written} holds {quoted(twice[0])} more than once; write each child so that it is known apart."
        )
    return names


def unbroken(name: str) -> str:
    """Return a name that stays on one line of a table."""
    return name.replace(" ", "\u00a0")
