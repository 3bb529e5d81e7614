"""``python3 -m tests published``: every outside value, our result, the difference and what is allowed."""

import sys

from tests.published.table import Row, rows


def main() -> int:
    """Print the table; exit status 1 where a row does not do what it says."""
    print("what | source | published | ours | difference | allowed")
    table, wrong, source = rows(), 0, ""
    for row in table:
        if row.source != source:
            source = row.source
            print(f"\n{source}")
        as_said = row.agrees() != row.meant_to_miss
        wrong += not as_said
        print(printed(row, as_said=as_said))
    misses = sum(1 for row in table if row.meant_to_miss)
    print(f"\n{len(table)} rows; {misses} cannot be met and say why; {wrong} do not do what they say.")
    return 1 if wrong else 0


def printed(row: Row, *, as_said: bool) -> str:
    ours = row.ours()
    shown = ours if isinstance(ours, str) else f"{ours:.10g}"
    exact = isinstance(ours, str)
    difference = "" if exact else f"{row.difference():+.2g}"
    allowed = "equal" if exact else f"{row.tolerance():.2g}"
    tail = f" | {row.note}" if row.note else ""
    flag = "" if as_said else "  <-- NOT AS SAID"
    return f"{row.what} | {row.mark} | {row.value} | {shown} | {difference} | {allowed}{tail}{flag}"


if __name__ == "__main__":
    sys.exit(main())
