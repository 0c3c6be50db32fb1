"""Run the program with ``python -m lessonkit``."""

from lessonkit.cli import start

start()
