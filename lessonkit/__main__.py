"""Run the program with ``python -m lessonkit``."""

from lessonkit.cli import main

raise SystemExit(main())
