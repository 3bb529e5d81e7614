"""Sync: 10,000 operations over HTTP beside bare SQLite inserting the same rows with the same fsyncs."""

from collections.abc import Iterator

from tests.fire.full_load import beside_bare_sqlite
from tests.full.registry import Row


def rows(small: bool) -> Iterator[Row]:
    """The rows of the long run of the same name."""
    yield from beside_bare_sqlite(small)
