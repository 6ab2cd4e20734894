"""The commands, their arguments, and what each calls."""

from __future__ import annotations

import argparse
import sys
from importlib import import_module
from typing import TYPE_CHECKING, NoReturn

from fieldbook import __version__
from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import folder_or_file
from fieldbook.cli.shown import shown_plain
from fieldbook.cli.streams import ready_streams, say, settle_output

if TYPE_CHECKING:
    from collections.abc import Sequence

_HOME = (
    "the book's folder; else FIELDBOOK_HOME, else the one chosen at the first start (kept in"
    " the file 'home' of your settings folder), else the platform's folder for data"
)
_MODULE_AND_FUNCTION = {
    None: ("screens", "open_app"),
    "demo": ("screens", "demo"),
    "new": ("beginning", "new"),
    "jobs": ("shelf", "jobs"),
    "find": ("shelf", "find"),
    "wells": ("overview", "wells"),
    "due": ("overview", "due"),
    "log": ("shelf", "log"),
    "lift": ("checks", "lift"),
    "watch": ("checks", "watch"),
    "plan": ("planning", "plan"),
    "enter": ("entering", "enter"),
    "gear": ("gear", "gear"),
    "gather": ("gathering", "gather"),
    "export": ("exporting", "export"),
    "jobfile": ("office", "jobfile"),
    "verify": ("office", "verify"),
    "paper": ("paper", "paper"),
    "attach": ("attaching", "attach"),
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    ready_streams()
    try:
        return _run(arguments)
    except CannotGoOn as problem:
        say(str(problem))
        return 2
    except KeyboardInterrupt:
        say("stopped; what was saved is saved, and the same command may be run again")
        return 1
    except BrokenPipeError:
        say("the output was closed before all of the answer was written")
        return 1
    except OSError as problem:
        place = problem.filename or "the output or the input"
        say(f"cannot go on: {place}: {problem.strerror or problem}")
        return 2
    finally:
        settle_output()  # so that nothing is left to be tried when Python ends


def _run(arguments: Sequence[str] | None) -> int:
    """Run one command; its answer is out when this returns."""
    try:
        given = _parser().parse_args(arguments)
        module, function = _MODULE_AND_FUNCTION[given.command]
        run = getattr(import_module(f"fieldbook.cli.commands.{module}"), function)
        if module == "screens":  # which draws on the terminal itself
            return int(run(given))
        with shown_plain():
            return int(run(given))
    finally:
        if sys.exc_info()[0] in (None, SystemExit):
            sys.stdout.flush()


class _Parser(argparse.ArgumentParser):
    """Says what is wrong with a command without what opens the addresses in it."""

    def error(self, message: str) -> NoReturn:
        """Say it and end."""
        from fieldbook.office.export.address import redacted_in  # noqa: PLC0415 - seldom needed

        super().error(redacted_in(message, *sys.argv))


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="fieldbook",
        description="A pull-and-set logbook for water-well pump crews.",
        epilog="JOB is a job number on the shelf, or the path of a job's folder.",
    )
    parser.add_argument("--version", action="version", version=f"fieldbook {__version__}")
    parser.add_argument("--home", type=folder_or_file, help=_HOME)
    subparsers = parser.add_subparsers(dest="command", metavar="command")
    commands = _Commands(subparsers)

    demo = commands.add_parser("demo", help="open the app on a scratch copy of the sample jobs")
    demo.add_argument("--play", action="store_true", help="watch a pull that ends in a stop")
    demo.add_argument(
        "--into", type=folder_or_file, metavar="DIR", help="only write the sample book there"
    )

    _add_new(commands)

    jobs = commands.add_parser("jobs", help="the shelf as a table")
    _add_json(jobs)

    _add_overviews(commands)

    _add_checks(commands)

    enter = commands.add_parser("enter", help="record entries from standard input, one a line")
    enter.add_argument("job", metavar="JOB")

    log = commands.add_parser("log", help="the entries as recorded, cross-outs shown")
    log.add_argument("job", metavar="JOB")
    _add_json(log)

    gear = commands.add_parser("gear", help="the company's gear, with the dates that are past")
    gear.add_argument("--on", metavar="DATE", help="as of a day such as 2026-05-14 (else today)")
    _add_json(gear)

    gather = commands.add_parser("gather", help="union of logs from trucks' folders")
    gather.add_argument("sources", metavar="FROM", nargs="+", help="a folder, or s3://...")
    gather.add_argument("--into", help="the office's book, or its s3://... (else this one)")
    _add_json(gather)

    _add_export(commands)

    jobfile = commands.add_parser("jobfile", help="write the job file: tables and everything")
    jobfile.add_argument("job", metavar="JOB")
    jobfile.add_argument("--out", type=folder_or_file, required=True, metavar="DIR")
    words = "the place whose record is to be filed, such as MI; its facts, who files, by when"
    jobfile.add_argument("--locality", metavar="PLACE", help=words)

    _add_paper_and_files(commands)

    verify = commands.add_parser("verify", help="the journal's checksums and chain, line by line")
    verify.add_argument("paths", metavar="PATH", nargs="+", type=folder_or_file)
    _add_json(verify)
    return parser


def _add_new(commands: _Commands) -> None:
    new = commands.add_parser("new", help="put a new job on the shelf")
    new.add_argument("job", metavar="JOB", help="its number")
    new.add_argument("--by", required=True, metavar="XX", help="your initials")
    new.add_argument("--line", metavar="LINE", help="pvc, steel or hose")
    new.add_argument("--work", metavar="WORK", help="pull, set, pull and set, or check")
    new.add_argument("--start", metavar="HOW", help="plan first (else), or record now")
    new.add_argument("--title", dest="job_title", metavar="TEXT", help="what it is called")
    new.add_argument("--owner", metavar="TEXT", help="whose well it is")
    new.add_argument("--well", dest="well_name", metavar="TEXT", help="which well")
    new.add_argument("--card", type=folder_or_file, metavar="FILE", help="take what a card says")


def _add_checks(commands: _Commands) -> None:
    lift = commands.add_parser("lift", help="the lift check: what hangs, what may be lifted")
    _add_job_or_card(lift)
    lift.add_argument("--joint", type=int, metavar="N", help="with N joints out")
    state = lift.add_mutually_exclusive_group()
    state.add_argument("--drained", action="store_true", help="take the line as drained")
    state.add_argument("--full", action="store_true", help="take the line as full")
    lift.add_argument("--print", action="store_true", help="as a paper card, one page of text")
    lift.add_argument("--blank", action="store_true", help="print an empty card to fill in")
    _add_json(lift)

    watch = commands.add_parser("watch", help="every live check of a job")
    watch.add_argument("job", metavar="JOB")
    _add_json(watch)

    plan = commands.add_parser("plan", help="PVC, steel and hose side by side: how deep can it go")
    _add_job_or_card(plan)
    plan.add_argument("--line", metavar="NAME", help="all about one line, such as 'steel 2 sch 40'")
    plan.add_argument("--blank", action="store_true", help="print an empty card to fill in")
    _add_json(plan)


def _add_overviews(commands: _Commands) -> None:
    find = commands.add_parser("find", help="jobs by owner, well, pump, day and finding")
    find.add_argument("words", metavar="WORD", nargs="*", help="each stands somewhere in the job")
    for name in ("owner", "well", "pump", "finding"):
        find.add_argument(f"--{name}", default="", help=f"words of the {name}")
    find.add_argument("--since", metavar="DAY", help="saved on this day or later, as 2026-05-14")
    _add_json(find)

    wells = commands.add_parser("wells", help="each well over all its jobs, and what is due on it")
    wells.add_argument("words", metavar="WORD", nargs="*", help="of its owner, name or tag")
    wells.add_argument("--history", action="store_true", help="every reading and job, not the last")
    _add_on(wells)
    _add_json(wells)

    due = commands.add_parser("due", help="follow-ups, lab results and records to file, by day")
    due.add_argument("--within", type=int, metavar="DAYS", help="late, or due in so many days")
    words = "by its rule where the crew named no day (else by locality.txt in the book's home)"
    due.add_argument("--locality", metavar="PLACE", help=words)
    _add_on(due)
    _add_json(due)


class _Commands:
    """Makes the commands, each of which takes --home after its name too."""

    def __init__(self, subparsers: argparse._SubParsersAction[_Parser]) -> None:
        self._subparsers = subparsers

    def add_parser(self, name: str, *, help: str) -> argparse.ArgumentParser:  # noqa: A002 - argparse's word
        parser = self._subparsers.add_parser(name, help=help, description=help)
        words = "the book's folder"
        parser.add_argument("--home", type=folder_or_file, default=argparse.SUPPRESS, help=words)
        return parser


def _add_export(commands: _Commands) -> None:
    export = commands.add_parser("export", help="put wells, jobs, entries, readings into SQL")
    words = "the database (else fieldbook.sqlite in the book's folder)"
    export.add_argument("--to", metavar="URL", help=words)
    _add_json(export)


def _add_on(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--on", metavar="DAY", help="as of this day, as 2026-05-14 (else today)")


def _add_paper_and_files(commands: _Commands) -> None:
    attach = commands.add_parser("attach", help="photos and papers into a job")
    attach.add_argument("job", metavar="JOB")
    attach.add_argument("files", metavar="FILE", nargs="+", type=folder_or_file)
    attach.add_argument("--by", required=True, metavar="XX", help="whose initials")
    attach.add_argument("--note", required=True, metavar="TEXT", help="what they show")
    attach.add_argument("--part", default="", metavar="TEXT", help="of which part")
    attach.add_argument("--inside", action="store_true", help="not for the customer's copy")

    paper = commands.add_parser("paper", help="the walk on paper, for the day the laptop dies")
    paper.add_argument("job", metavar="JOB", nargs="?")
    paper.add_argument("--line", help="an empty form for this drop line")
    paper.add_argument("--work", help="and this work: pull, set, pull and set, check")
    paper.add_argument("--joints", type=int, metavar="N", help="rows for N joints, or readings")
    paper.add_argument("--text", action="store_true", help="plain text, not HTML")
    paper.add_argument(
        "--out", type=folder_or_file, metavar="FILE", help="write it here, not to the screen"
    )


def _add_json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="as JSON")


def _add_job_or_card(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", metavar="JOB", nargs="?")
    parser.add_argument(
        "--card", type=folder_or_file, metavar="FILE", help="a card instead of a job"
    )
