"""A log's bytes to one road run: the whole way, from the table to channels in the contract's units."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from calc.errors import UnreadableLog
from calc.logs.cells import Columns
from calc.logs.clock import seconds
from calc.logs.columns import Choice, barometer_column, choose, time_columns
from calc.logs.convert import Facts, converted
from calc.logs.decode import decode
from calc.logs.lay import lay
from calc.logs.left_out import LeftOut
from calc.logs.preamble import read_preamble
from calc.logs.table import Table, find_table
from calc.logs.times import rising_rows, spread_whole_seconds

FEWEST_ROWS = 2
FIRST_SHOWN = 3
Series = tuple[list[float], list[float]]


@dataclass
class _Log:
    """What has been found so far."""

    table: Table
    choices: list[Choice]
    clocks: list[Choice]
    left_out: LeftOut = field(default_factory=LeftOut)


def read_log(
    data: bytes,
    columns: Mapping[str, Any] | None = None,
    *,
    barometric_kpa_abs: float | None = None,
    displacement_l: float | None = None,
    cylinders: int | None = None,
) -> dict[str, Any]:
    """One road run from the text table that an instrument wrote.

    Parameters
    ----------
    data : bytes
        The file. Comma, semicolon or tab; point or decimal comma; UTF-8 or Windows-1252. [-]
    columns : mapping, optional
        What the technician fixed: channel to `{"column", "unit", "kind"}`; a channel set to None is left out.
    barometric_kpa_abs : float, optional
        Air pressure on the day; else from the preamble, a barometric column, the log at rest, or 101.3. [kPa]
    displacement_l, cylinders : number, optional
        Of the engine, for air mass a stroke; else from the preamble. [l], [-]

    Returns
    -------
    dict
        A `road` element with `guesses` and `left_out`.

    Raises
    ------
    UnreadableLog
        For a file that is no text table with times and a channel, and for wishes that cannot be met.
    """
    table = find_table(decode(data))
    choices, clocks = choose(table.headers, columns), time_columns(table.headers, columns)
    taken = {choice.column for choice in choices}
    clocks = [clock for clock in clocks if clock.column not in taken]
    log = _Log(table, choices, clocks)
    if not choices:
        names = ", ".join(header.name for header in table.headers[:8])
        raise UnreadableLog(f"no column is known for a channel ({names}); name them by --columns")
    if not clocks:
        raise UnreadableLog("the table has no column of times; name it by --columns")
    barometer = barometer_column(table.headers)
    barometer = None if barometer in taken else barometer
    by_column, base, clock_guess = _on_one_base(log, barometer)
    said = read_preamble(table.preamble)
    facts = Facts(
        given=barometric_kpa_abs,
        preamble=said.barometric,
        column=None if barometer is None else by_column.get(barometer),
        column_unit=None if barometer is None else table.headers[barometer].unit,
        litres=displacement_l if displacement_l is not None else said.litres,
        cylinders=cylinders if cylinders is not None else said.cylinders,
    )
    channels, guesses = converted(
        {c.channel: (c, by_column[c.column]) for c in choices}, facts, table.headers, log.left_out
    )
    _account_for_columns(log, channels, barometer)
    return {
        "id": f"log-{sha256(data).hexdigest()[:12]}",
        "phase": "before_repair",
        "control": "normal",
        "channels": {"t_s": [round(when - base[0], 4) for when in base], **channels},
        "guesses": [clock_guess, *guesses],
        "left_out": log.left_out.listed(),
    }


def _on_one_base(
    log: _Log, barometer: int | None
) -> tuple[dict[int, list[float | None]], list[float], dict[str, Any]]:
    """Every wanted column's values on one time base, the base, and the guess of the times."""
    wanted = [choice.column for choice in log.choices] + ([] if barometer is None else [barometer])
    clocks = _clock_of_each(log, wanted)
    used = sorted({clock.column for clock in clocks.values()})
    cells = Columns(log.table, wanted, used, log.left_out, pad=len(used) > 1)
    read = {column: _seconds(cells.texts[column], log, column) for column in used}
    if len(used) == 1:
        times, guess = read[used[0]]
        rows = rising_rows(times, log.left_out)
        cells.account_for_odd_cells(None if rows is None else frozenset(rows))
        base = [
            when for when in (times if rows is None else [times[row] for row in rows]) if when is not None
        ]
        _enough(base)
        columns = cells.numbers if rows is None else _picked(cells.numbers, rows)
        return columns, base, guess
    cells.account_for_odd_cells(_rows_with_time([times for times, _ in read.values()]))
    series = {
        column: _series(cells.numbers[column], read[clocks[column].column][0], log) for column in wanted
    }
    base = max((times for times, _ in series.values()), key=len)
    _enough(base)
    most = next(column for column in wanted if series[column][0] is base)
    return {column: lay(one, base) for column, one in series.items()}, base, read[clocks[most].column][1]


def _clock_of_each(log: _Log, wanted: Sequence[int]) -> dict[int, Choice]:
    """The column of times that each wanted column goes by.

    One clock for all, unless columns of times stand between the others: then each goes by the one before it,
    or, where the table begins with values, by the one behind.
    """
    clocks = sorted(log.clocks, key=lambda clock: clock.column)
    values = [column for column in range(len(log.table.headers)) if column not in {c.column for c in clocks}]
    between = [c for c in clocks[1:] if any(clocks[0].column < value < c.column for value in values)]
    if not between or log.clocks[0].fixed:
        best = max(log.clocks, key=lambda clock: (clock.certainty, clock.unit is not None, -clock.column))
        return dict.fromkeys(wanted, best)
    if values and values[0] < clocks[0].column:
        return {column: next((c for c in clocks if c.column > column), clocks[-1]) for column in wanted}
    return {column: next((c for c in reversed(clocks) if c.column < column), clocks[0]) for column in wanted}


def _seconds(cells: Sequence[str], log: _Log, column: int) -> tuple[list[float | None], dict[str, Any]]:
    clock = next(choice for choice in log.clocks if choice.column == column)
    if log.table.quoted_comma:
        cells = [cell.replace(",", ".") for cell in cells]
    times, unit, certainty = seconds(cells, clock.unit)
    times, spread = spread_whole_seconds(times)
    certainty = min(clock.certainty, certainty) if not spread else 0.6 * certainty
    return times, {
        "channel": "t_s",
        "column": log.table.headers[column].name,
        "unit": unit,
        "kind": None,
        "certainty": 1.0 if clock.fixed and not spread else round(certainty, 2),
        "first": [cell.strip() for cell in cells[:FIRST_SHOWN]],
        **({"spread": True} if spread else {}),
    }


def _series(values: Sequence[float | None], times: Sequence[float | None], log: _Log) -> Series:
    """One channel with its own times, both without gaps."""
    pairs = [(when, value) for when, value in zip(times, values, strict=True) if value is not None]
    clean = [when for when, _ in pairs]
    rows = rising_rows(clean, log.left_out, "cell")
    kept = pairs if rows is None else [pairs[row] for row in rows]
    return [when for when, _ in kept if when is not None], [value for _, value in kept]


def _rows_with_time(clocks: Sequence[Sequence[float | None]]) -> frozenset[int]:
    return frozenset(
        row for row, times in enumerate(zip(*clocks, strict=True)) if any(when is not None for when in times)
    )


def _picked(
    columns: Mapping[int, Sequence[float | None]], rows: Sequence[int]
) -> dict[int, list[float | None]]:
    return {column: [values[row] for row in rows] for column, values in columns.items()}


def _enough(base: Sequence[float]) -> None:
    if len(base) < FEWEST_ROWS:
        raise UnreadableLog("the table has fewer than two rows with a time")


def _account_for_columns(log: _Log, channels: Mapping[str, Any], barometer: int | None) -> None:
    """Columns that are no channel are named too, so that the technician can claim them."""
    used = {choice.column for choice in log.choices if choice.channel in channels}
    refused = {choice.column for choice in log.choices} - used
    times = {clock.column for clock in log.clocks}
    for column, header in enumerate(log.table.headers):
        if column in used or column in times or column == barometer or column in refused:
            continue
        unit = {} if header.unit is None else {"unit": header.unit.name}
        log.left_out.add("column", "not taken for a channel", 1, header.name, **unit)
