"""`python3 -m api serve`: the workshop's address is settled, its certificate made, both servers started."""

import os
import socket
import sys
from collections.abc import Iterable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import segno

from api.address import Address, NoAddressError
from api.app import create_app
from api.certificate import NotPrivateError, fingerprint
from api.clock import Clock, utc_now
from api.context import Reached
from api.people.tokens import code
from api.serve import keys, logs
from api.serve.https import Servers
from api.serve.keys import Brought, Certificate, OfOurOwn
from api.serve.page import Welcome
from api.serve.welcome import create_welcome
from api.server import NotStartedError, at_work, hold
from api.store import database, people, settings

PRIVATE_FILES = 0o077
# Connections that say nothing are let go after seconds; until then each is an open file of ours.
OPEN_FILES = 16_384
# An address for documentation (RFC 5737): nothing is sent, the system only says which of ours would be used.
ELSEWHERE = ("192.0.2.1", 9)


@dataclass(frozen=True)
class Options:
    """What the command line says. `host` is None for the one settled before, or this machine's name."""

    data: Path
    host: str | None = None
    port: int = 8443
    plain_port: int = 8080
    listen: str = "0.0.0.0"  # noqa: S104  (phones come in over the Wi-Fi; sign-in and certificate stand before it)
    chain: Path | None = None
    key: Path | None = None


@dataclass(frozen=True)
class Settled:
    """The workshop's addresses, and whether nobody has an account yet."""

    address: Address
    former: tuple[Address, ...]
    is_new: bool


def serve(options: Options, clock: Clock = utc_now) -> None:
    """Serve the workshop over HTTPS until a signal ends it. Raises `NotStartedError`."""
    os.umask(PRIVATE_FILES)
    try:
        with hold(options.data):
            servers, lines = prepare(options, clock)
            logs.to_file(options.data / "logs")
            allow_open_files()
            _say(*lines)
            with at_work(servers.secure[0], _say):
                servers.run()
    except (NoAddressError, NotPrivateError) as reason:
        raise NotStartedError(f"{reason}. Another one: --address NAME") from None
    except OSError as problem:
        raise NotStartedError(f"The server cannot start: {problem}") from None
    _say("Stopped. Everything that was acknowledged is kept.")


def prepare(options: Options, clock: Clock = utc_now) -> tuple[Servers, list[str]]:
    """The servers, not yet running, and what is to be said to whoever started them."""
    settled = settle(options)
    certificates = [_certificate(options, settled.address, clock)]
    former = {one.host: OfOurOwn(_folder(options, one), one.host, addresses, clock) for one in settled.former}
    keys.choose_by_name(certificates[0].context, {host: one.context for host, one in former.items()})
    welcome = _welcome(options, settled.address, certificates[0])
    set_up_code = code() if settled.is_new else None
    reached = Reached(settled.address, settled.former, set_up_code, welcome)
    app = create_app(options.data, reached=reached, clock=clock)
    logs.tell_refusals(app)
    servers = Servers(
        (app, f"{options.listen}:{options.port}"),
        (create_welcome(welcome), f"{options.listen}:{options.plain_port}") if welcome else None,
        [*certificates, *former.values()],
    )
    return servers, _greeting(settled, welcome, set_up_code, options)


def settle(options: Options) -> Settled:
    """The address that phones know; the first one stays until another is named, and is still known then."""
    create_app(options.data)  # makes the folder and brings the database up to date
    with closing(database.connect(options.data / "workshop.sqlite3")) as connection:
        kept = settings.read(connection, "address")
        before = [Address(*one) for one in kept.get("addresses", [])]
        host = options.host or (before[0].host if before else own_name())
        address = Address(host.lower(), options.port)
        known = [address, *(one for one in before if one != address)]
        if known != before:
            settings.write(connection, "address", {"addresses": [[one.host, one.port] for one in known]})
        return Settled(address, tuple(known[1:]), people.is_empty(connection))


def allow_open_files() -> None:
    """As many as the system lets us have: with the usual 1,024 a crowd that says nothing shuts the door."""
    import resource

    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = OPEN_FILES if hard == resource.RLIM_INFINITY else min(OPEN_FILES, hard)
    if soft != resource.RLIM_INFINITY and soft < wanted:
        resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, hard))


def own_name() -> str:
    """This machine's name as the others on the Wi-Fi ask for it (RFC 6762, where no domain is known)."""
    name = socket.gethostname().lower().strip(".")
    return name if "." in name else f"{name}.local"


def addresses() -> Iterable[str]:
    """This machine's present addresses on its networks."""
    found = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(ELSEWHERE)
            found.append(str(probe.getsockname()[0]))
        except OSError:
            pass  # no network at all just now
    return found


def _certificate(options: Options, address: Address, clock: Clock) -> Certificate:
    if options.chain and options.key:
        return Brought(options.chain, options.key)
    return OfOurOwn(_folder(options, address), address.host, addresses, clock)


def _folder(options: Options, address: Address) -> Path:
    return options.data / "certificates" / address.host


def _welcome(options: Options, address: Address, certificate: Certificate) -> Welcome | None:
    """The page for new phones; a certificate that the world trusts needs none."""
    if not isinstance(certificate, OfOurOwn):
        return None
    found = certificate.authority.certificate
    return Welcome(
        url=f"http://{next(iter(addresses()), address.host)}:{options.plain_port}",
        origin=address.origin,
        name=keys.common_name(found),
        fingerprint=fingerprint(found),
        der=keys.authority_der(certificate.authority),
    )


def _greeting(settled: Settled, welcome: Welcome | None, code: str | None, options: Options) -> list[str]:
    lines = [f"Teepiece is at {settled.address.origin} (data in {options.data})"]
    if welcome:
        lines += [
            f"New phones begin at {welcome.url}, or here:",
            _qr(welcome.url),
            "The certificate's fingerprint (SHA-256), to be compared on the phone:",
            *(f"  {line}" for line in welcome.fingerprint_lines),
        ]
    if code:
        lines += [f"Set the workshop up at {settled.address.origin}/set-up with the code {code}"]
    return lines


def _qr(text: str) -> str:
    from io import StringIO

    drawn = StringIO()
    segno.make(text, error="l").terminal(drawn, border=2, compact=True)
    return drawn.getvalue().rstrip("\n")


def _say(*lines: str) -> None:
    for line in lines:
        sys.stdout.write(f"{line}\n")
    sys.stdout.flush()
