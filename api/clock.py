"""The server's clock: one kind of time inside, one form of it in the database."""

from collections.abc import Callable
from datetime import UTC, datetime

Clock = Callable[[], datetime]


def utc_now() -> datetime:
    """Now, by this machine's clock, in UTC."""
    return datetime.now(UTC)


def stamp(moment: datetime) -> str:
    """RFC 3339 in UTC to the second: equal lengths, so that texts sort as times do."""
    return moment.astimezone(UTC).isoformat(timespec="seconds")


def moment(text: str) -> datetime:
    """The moment that `stamp` wrote."""
    return datetime.fromisoformat(text)
