"""``python3 -m tests.mutation.row NAME``: exit status 1 where that published row does not do what it says."""

import sys

from tests.published.table import rows


def main(name: str) -> int:
    """Look at one row by its name."""
    row = next(row for row in rows() if row.name == name)
    return 0 if row.agrees() != row.meant_to_miss else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
