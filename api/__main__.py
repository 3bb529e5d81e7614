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
    parser.set_defaults(command="here")
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
    commands = parser.add_subparsers(title="commands")
    add_report(commands)
    add_serve(commands)
    add_copies(commands)
    return parser


def add_report(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    report = commands.add_parser("report", help="write a PDF from a job document, with no server")
    report.set_defaults(command="report")
    report.add_argument("job", type=Path, metavar="JOB.json")
    report.add_argument("-o", "--output", type=Path, required=True, metavar="OUT.pdf")
    report.add_argument("--form", choices=["short", "customer", "technical"], default="technical")
    report.add_argument("--paper", choices=["a4", "letter"], default="a4")
    report.add_argument("--language", choices=["en", "de"], default="en")
    report.add_argument("--unit", choices=["kPa", "bar", "psi", "mbar", "inHg"], default="kPa")
    report.add_argument(
        "--photos", type=Path, metavar="FOLDER", help="where the job's photos lie, whatever they are called"
    )


def add_serve(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    serve = commands.add_parser("serve", help="serve phones on the workshop's Wi-Fi, over HTTPS with sign-in")
    serve.set_defaults(command="serve")
    serve.add_argument(
        "--address", metavar="NAME", help="the name that phones know, for ever (kept once given)"
    )
    serve.add_argument("--https-port", type=port_number, default=8443, metavar="N")
    serve.add_argument(
        "--plain-port", type=port_number, default=8080, metavar="N", help="the certificate's page"
    )
    serve.add_argument("--listen", default="0.0.0.0", metavar="ADDRESS", help="default: every network")  # noqa: S104
    serve.add_argument(
        "--certificate", type=Path, metavar="CHAIN.pem", help="of a domain of the workshop's own"
    )
    serve.add_argument("--key", type=Path, metavar="KEY.pem")
    unit = commands.add_parser("unit", help="print the systemd unit that keeps `serve` running")
    unit.set_defaults(command="unit")
    for one in (serve, unit):
        one.add_argument("--data", type=Path, default=argparse.SUPPRESS, help="as above")


def add_copies(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    texts = {
        "backup": "write the whole workshop to one file; the server may run meanwhile",
        "restore": "put a backup back; what was there is moved aside",
        "take-in": "take in a copy that a phone saved",
    }
    for name, says in texts.items():
        command = commands.add_parser(name, help=says)
        command.set_defaults(command=name)
        command.add_argument("file", type=Path, metavar="FILE")
        command.add_argument("--data", type=Path, default=argparse.SUPPRESS, help="as above")


def port_number(text: str) -> int:
    number = int(text)
    if not 0 <= number <= 65535:
        raise argparse.ArgumentTypeError(f"{text} is not a port (0 to 65535)")
    return number


def default_data() -> Path:
    home = Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share")
    return home / "teepiece"


def serve_here(choice: argparse.Namespace) -> int:
    from api import server

    try:
        server.serve(choice.data, choice.port, demo=choice.demo)
    except server.NotStartedError as reason:
        print(reason, file=sys.stderr)
        return 1
    return 0


def serve_phones(choice: argparse.Namespace) -> int:
    from api.serve import start
    from api.server import NotStartedError

    if bool(choice.certificate) != bool(choice.key):
        print("--certificate and --key belong together.", file=sys.stderr)
        return 2
    options = start.Options(
        choice.data,
        choice.address,
        choice.https_port,
        choice.plain_port,
        choice.listen,
        choice.certificate,
        choice.key,
    )
    try:
        start.serve(options)
    except NotStartedError as reason:
        print(reason, file=sys.stderr)
        return 1
    return 0


def print_unit(choice: argparse.Namespace) -> int:
    from api.serve.unit import unit

    print(unit(choice.data), end="")
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
    "here": serve_here,
    "serve": serve_phones,
    "unit": print_unit,
    "report": write_report,
    "backup": copies,
    "restore": copies,
    "take-in": copies,
}


if __name__ == "__main__":
    sys.exit(main())
