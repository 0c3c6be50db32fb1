"""``check``: read every record and say what would go wrong in the gym or the office."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit import __version__
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.front_door import FORMS
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    import argparse

    from lessonkit.commands.recall import Checked
    from lessonkit.commands.repair import Repair
    from lessonkit.source.finding import Finding

NAME = "check"
HELP = "Check every record of a curriculum and say what to mend, at its line."
EXAMPLES = (
    ("lessonkit check", "the folder curriculum, or this folder"),
    ("lessonkit check my-school", "another folder, or one file"),
    ("lessonkit check --explain cue-too-long", "what a finding means"),
    ("lessonkit check --fix", "show what can be repaired without asking you; add --write to do it"),
    ("lessonkit check --watch", "while you write"),
    ("lessonkit check --form github", "for the log of a code host's checks; also json, sarif and junit"),
)

_ROUNDS = 5
"""How often repairs are looked for again after some were made."""


def add_arguments(parser: "argparse.ArgumentParser") -> None:
    """Declare the command's words and options."""
    parser.add_argument("folder", nargs="?", help="the folder of records (default: curriculum, or this folder)")
    parser.add_argument("--explain", metavar="NAME", help="show the page of one kind of finding and stop")
    parser.add_argument(
        "--form", choices=FORMS, default="text", help="text (the default), json, sarif, junit or github"
    )
    parser.add_argument(
        "--fix", action="store_true", help="show as a diff what can be repaired without asking, as misspelled codes can"
    )
    parser.add_argument("--write", action="store_true", help="with --fix: write the repairs into the files")
    parser.add_argument("--no-cache", action="store_true", help="check everything anew, and keep nothing for next time")
    parser.add_argument("--watch", action="store_true", help="check again whenever a file changes, until Ctrl-C")
    parser.add_argument("--no-advice", action="store_true", help="leave advice out; errors and warnings stay")


def run(args: "argparse.Namespace", terminal: Terminal) -> int:
    """Check and report. Returns 0 when there is nothing to mend (advice aside), 1 otherwise."""
    if args.explain:
        return _explain(args.explain, terminal)
    if args.write and not args.fix:
        raise CannotRunError("--write goes with --fix, to write what --fix shows.")
    if args.watch and (args.fix or args.form != "text"):
        raise CannotRunError("--watch shows findings as text; it does not go with --fix or --form.")
    if args.fix:
        return _fix(args, terminal)
    return _watch(args, terminal) if args.watch else _check(args, terminal)


def _watch(args: "argparse.Namespace", terminal: Terminal) -> int:
    """Check, and check again after every change, until Ctrl-C. Returns what the last check did."""
    from lessonkit.commands.curriculum import folder_argument
    from lessonkit.commands.lines import forget_lines
    from lessonkit.commands.watch import marks, wait_for_change

    given = folder_argument(args.folder)
    seen, code = marks(given), 0
    try:
        while True:
            forget_lines()
            code = _check(args, terminal)
            terminal.error(f"Waiting for a change in {given.as_posix()}. Ctrl-C ends.")
            seen = wait_for_change(given, seen)
    except KeyboardInterrupt:
        return code


def _fix(args: "argparse.Namespace", terminal: Terminal) -> int:
    """Show the repairs, or write them and check again. Returns 1 while there is something to mend."""
    from lessonkit.commands.calls import call
    from lessonkit.commands.curriculum import folder_argument

    given = folder_argument(args.folder)
    if args.write:
        places, files = _mend(given, args.no_cache, terminal)
        terminal.tell_error(f"Mended: {places} in {files} of the files.")
        return _check(args, terminal)
    found = _repairs(given, args.no_cache, terminal)
    places = sum(repair.places for repair in found)
    if not found:
        terminal.error("Nothing can be repaired without asking you.")
        return _check(args, terminal)
    terminal.whole("".join(repair.diff() for repair in found))
    terminal.tell_error(
        f"Repairs: {places} in {len(found)} of the files. Write them with: {call('check --fix --write', args.folder)}"
    )
    return 1


def _repairs(given: Path, anew: bool, terminal: Terminal) -> "tuple[Repair, ...]":
    from lessonkit.commands.repair import repairs

    return repairs(_only_in(given, _checked(given, anew, terminal)).findings)


def _mend(given: Path, anew: bool, terminal: Terminal) -> tuple[int, int]:
    """Write all repairs, also those that are only seen once others are made; return how many, and in how many files."""
    from lessonkit.commands.repair import write_repairs

    places = 0
    files: set[str] = set()
    for _ in range(_ROUNDS):
        found = _repairs(given, anew, terminal)
        write_repairs(found)
        places += sum(repair.places for repair in found)
        files.update(repair.path for repair in found)
        if not found:
            break
    return places, len(files)


def _check(args: "argparse.Namespace", terminal: Terminal) -> int:
    from lessonkit.commands.lean import put_off

    put_off()
    from lessonkit.commands.curriculum import curriculum_of, folder_argument
    from lessonkit.commands.front_door import question_of
    from lessonkit.commands.kept_check import remember_answer
    from lessonkit.commands.recall import Checked
    from lessonkit.source.finding import Level

    given = folder_argument(args.folder)
    checked = _checked(given, args.no_cache, terminal)
    findings = tuple(one for one in checked.findings if not (args.no_advice and one.level is Level.ADVICE))
    kept = checked.kept
    checked = _only_in(given, Checked(checked.paths, findings))
    text = _report(args.form, checked.findings, checked.paths, terminal)
    code = int(any(finding.level is not Level.ADVICE for finding in checked.findings))
    if kept and given.is_dir() and curriculum_of(given) == given:
        question = question_of(args.form, args.no_advice, terminal)
        remember_answer(given.as_posix(), kept, question, text, code)
    terminal.whole(text)
    return code


def _checked(given: Path, anew: bool, terminal: Terminal) -> "Checked":
    """Return what a check of the curriculum of a file or folder finds, or found when everything was as it is now."""
    from lessonkit.commands.curriculum import curriculum_of, read_curriculum
    from lessonkit.commands.recall import Checked, before, keep, recall

    path = curriculum_of(given)
    now = None if anew or path.is_file() else before(path, path.as_posix())
    kept = recall(now) if now else None
    if kept is not None:
        return kept
    from lessonkit.commands.checking import all_findings, silenced
    from lessonkit.commands.collecting import NoCollecting

    with NoCollecting():
        loaded = read_curriculum(path, terminal)
        terminal.status("Checking ...")
        found = all_findings(loaded)
        said = silenced(found, loaded)
        return Checked(loaded.paths, said, keep(now, loaded, found, said) if now else None)


def _only_in(given: Path, checked: "Checked") -> "Checked":
    """Return what concerns a file or folder that was given; all of it for a whole curriculum."""
    from lessonkit.commands.curriculum import curriculum_of
    from lessonkit.commands.recall import Checked

    if given == curriculum_of(given):
        return checked
    asked = given.resolve()
    return Checked(
        tuple(path for path in checked.paths if _lies_in(path, asked)),
        tuple(finding for finding in checked.findings if _lies_in(finding.location.path, asked)),
    )


def _report(form: str, findings: "Sequence[Finding]", paths: tuple[str, ...], terminal: Terminal) -> str:
    match form:
        case "json":
            from lessonkit.reports.json import write_json

            return write_json(findings, len(paths))
        case "sarif":
            from lessonkit.reports.sarif import write_sarif

            return write_sarif(findings, __version__, _pages(findings))
        case "junit":
            from lessonkit.reports.junit import write_junit

            return write_junit(findings, paths)
        case "github":
            from lessonkit.reports.github import write_github

            return write_github(findings)
        case _:
            from lessonkit.commands.lines import line_of
            from lessonkit.reports.text import TextOptions, write_text

            options = TextOptions(terminal.width, terminal.colour)
            return write_text(findings, len(paths), line_of, options) + "\n"


def _lies_in(path: str, folder: Path) -> bool:
    return Path(path).resolve().is_relative_to(folder)


def _explain(name: str, terminal: Terminal) -> int:
    from lessonkit.commands.meant import quoted
    from lessonkit.loading.codes import CODES
    from lessonkit.planning.codes import PLAN_CODES
    from lessonkit.rules.registry import RULES
    from lessonkit.rules.silence import CODES_OF_SILENCE
    from lessonkit.source.closest import closest

    page = _page(name)
    if page is None:
        names = [
            code.name for code in (*CODES, *CODES_OF_SILENCE, *PLAN_CODES, *(module.RULE.code for module in RULES))
        ]
        near = closest(name, names)
        ending = f"Did you mean {quoted(near)}?" if near else f"Pages: {', '.join(sorted(names))}."
        raise CannotRunError(f"there is no page for {quoted(name)}. {ending}")
    terminal.line("\n\n".join(_folded(part, terminal.width) for part in page.split("\n\n")))
    return 0


def _folded(part: str, width: int) -> str:
    """Return a part of a page in lines of a width; what is indented or listed keeps its own lines."""
    import textwrap

    if any(line[:1] in (" ", "-", "|") for line in part.splitlines()):
        return part
    return textwrap.fill(part, width, break_long_words=False, break_on_hyphens=False)


def _page(name: str) -> str | None:
    """Return the page of a kind of finding by its name or number, headed by both; None where there is none."""
    from lessonkit.loading.pages import explain as explain_loading
    from lessonkit.planning.pages import explain as explain_planning
    from lessonkit.rules.run import explain as explain_rule
    from lessonkit.rules.silence import explain as explain_silence

    return explain_rule(name) or explain_loading(name) or explain_silence(name) or explain_planning(name)


def _pages(findings: "Sequence[Finding]") -> dict[str, str]:
    """Return the pages, without their headings, of the kinds of finding that there are, by number."""
    pages = {}
    for number in sorted({finding.code.number for finding in findings}):
        _, _, page = (_page(number) or "").partition("\n\n")
        if page:
            pages[number] = page
    return pages
