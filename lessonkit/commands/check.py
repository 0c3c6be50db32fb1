"""``check``: read every record and say what would go wrong in the gym or the office."""

import argparse
from pathlib import Path

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal

NAME = "check"
HELP = "Check every record of a curriculum and say what to mend, at its line."
EXAMPLES = (
    ("lessonkit check", "the folder curriculum, or this folder"),
    ("lessonkit check my-school", "another folder, or one file"),
    ("lessonkit check --explain cue-too-long", "what a finding means"),
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("folder", nargs="?", help="the folder of records (default: curriculum, or this folder)")
    parser.add_argument("--explain", metavar="NAME", help="show the page of one kind of finding and stop")
    parser.add_argument("--no-advice", action="store_true", help="leave advice out; errors and warnings stay")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Check and report. Returns 0 when there is nothing to mend (advice aside), 1 otherwise."""
    if args.explain:
        return _explain(args.explain, terminal)
    from lessonkit.commands.checking import findings_of, line_of
    from lessonkit.commands.curriculum import folder_argument, open_curriculum
    from lessonkit.reports.text import TextOptions, write_text
    from lessonkit.source.finding import Level

    loaded = open_curriculum(args.folder, terminal)
    terminal.status("Checking ...")
    findings = findings_of(loaded)
    if args.no_advice:
        findings = tuple(finding for finding in findings if finding.level is not Level.ADVICE)
    asked = folder_argument(args.folder).resolve()
    findings = tuple(finding for finding in findings if _lies_in(finding.location.path, asked))
    files = sum(_lies_in(path, asked) for path in loaded.paths)
    terminal.line(write_text(findings, files, line_of, TextOptions(terminal.width, terminal.colour)))
    return int(any(finding.level is not Level.ADVICE for finding in findings))


def _lies_in(path: str, folder: Path) -> bool:
    return Path(path).resolve().is_relative_to(folder)


def _explain(name: str, terminal: Terminal) -> int:
    from lessonkit.rules.registry import RULES
    from lessonkit.rules.run import explain
    from lessonkit.source.closest import closest

    page = explain(name)
    if page is None:
        names = [module.RULE.code.name for module in RULES]
        meant = closest(name, names)
        raise CannotRunError(
            f"there is no page for {name!r}."
            + (f" Did you mean {meant!r}?" if meant else f" Pages: {', '.join(names)}.")
        )
    terminal.line(page)
    return 0
