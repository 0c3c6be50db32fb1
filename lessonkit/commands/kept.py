"""Old files stay beside the new ones."""

from pathlib import Path

from lessonkit.source.safe_file import write_whole


def keep_beside(path: Path) -> Path:
    """Copy a file beside itself under the first free name (``x.yaml.old``, ``x.yaml.old-2``) and return that name."""
    content = path.read_bytes()
    number = 1
    while True:
        spare = path.with_name(f"{path.name}.old" + (f"-{number}" if number > 1 else ""))
        if not spare.exists():
            write_whole(spare, content)
            return spare
        number += 1
