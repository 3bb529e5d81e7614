"""The command line: ``python3 -m api``, and ``teepiece`` where the project is installed."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from api import bootstrap


def main(argv: Sequence[str] | None = None) -> int:
    """Serve the workshop, or write a report; the exit status."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    choice = command_line().parse_args(arguments)
    try:
        bootstrap.enter("api", arguments)
    except bootstrap.NotReady as reason:
        print(reason, file=sys.stderr)
        return 1
    return COMMANDS[choice.command](choice)


def command_line() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="teepiece", description="Boost-control diagnosis: the workshop's server."
    )
    parser.set_defaults(command="serve")
    parser.add_argument(
        "--port", type=port_number, default=8000, help="port on this machine (default 8000; 0: any free)"
    )
    parser.add_argument(
        "--data", type=Path, default=default_data(), help="folder that keeps the work (default %(default)s)"
    )
    parser.add_argument(
        "--demo",
        action=argparse.BooleanOptionalAction,
        default=True,
        help="put the demo job in, if it is not there",
    )
    add_report(parser)
    add_copies(parser)
    return parser


def add_copies(parser: argparse.ArgumentParser) -> None:
    texts = {
        "backup": "write the whole workshop to one file; the server may run meanwhile",
        "restore": "put a backup back; what was there is moved aside",
        "take-in": "take in a copy that a phone saved",
    }
    for name, says in texts.items():
        command = commands_of(parser).add_parser(name, help=says)
        command.set_defaults(command=name)
        command.add_argument("file", type=Path, metavar="FILE")


def commands_of(parser: argparse.ArgumentParser) -> argparse._SubParsersAction[argparse.ArgumentParser]:
    """The place where commands are added; a parser has one."""
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            return action
    return parser.add_subparsers(title="commands")


def add_report(parser: argparse.ArgumentParser) -> None:
    commands = commands_of(parser)
    report = commands.add_parser("report", help="write a PDF from a job document, with no server")
    report.set_defaults(command="report")
    report.add_argument("job", type=Path, metavar="JOB.json")
    report.add_argument("-o", "--output", type=Path, required=True, metavar="OUT.pdf")
    report.add_argument("--form", choices=["short", "customer", "technical"], default="technical")
    report.add_argument("--paper", choices=["a4", "letter"], default="a4")
    report.add_argument("--language", choices=["en"], default="en")
    report.add_argument("--unit", choices=["kPa", "bar", "psi", "mbar", "inHg"], default="kPa")
    report.add_argument(
        "--photos", type=Path, metavar="FOLDER", help="where the job's photos lie, whatever they are called"
    )


def port_number(text: str) -> int:
    number = int(text)
    if not 0 <= number <= 65535:
        raise argparse.ArgumentTypeError(f"{text} is not a port (0 to 65535)")
    return number


def default_data() -> Path:
    home = Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share")
    return home / "teepiece"


def serve(choice: argparse.Namespace) -> int:
    from api import server

    try:
        server.serve(choice.data, choice.port, demo=choice.demo)
    except server.NotStartedError as reason:
        print(reason, file=sys.stderr)
        return 1
    return 0


def copies(choice: argparse.Namespace) -> int:
    """Back up, put back or take in; exit status 1 with one line where it could not be done."""
    from api import copying

    try:
        print(copying.DO[choice.command](choice.data, choice.file))
    except copying.NotDoneError as reason:
        print(reason, file=sys.stderr)
        return 1
    return 0


def write_report(choice: argparse.Namespace) -> int:
    """Exit status: 0 written, 2 for a document that cannot be read, 1 where drawing or writing failed."""
    from api import report

    try:
        report.write(
            choice.job,
            choice.output,
            form=choice.form,
            paper=choice.paper,
            unit=choice.unit,
            language=choice.language,
            photos=choice.photos,
        )
    except (report.UnreadableError, report.NotDrawnError) as reason:
        print(reason, file=sys.stderr)
        return 2 if isinstance(reason, report.UnreadableError) else 1
    return 0


COMMANDS = {
    "serve": serve,
    "report": write_report,
    "backup": copies,
    "restore": copies,
    "take-in": copies,
}


if __name__ == "__main__":
    sys.exit(main())
