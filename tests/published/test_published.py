"""Every row of fixtures/published against our own result: within half of the last digit, or as stated."""

import pytest

from tests.published.formulas import FORMULAS
from tests.published.table import MARKS, Row, half_last_digit, rows

ROWS = rows()


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_ours_is_what_was_published(row: Row) -> None:
    """A row that cannot be met says why, and the miss itself is then what the test expects."""
    assert row.agrees() != row.meant_to_miss, (row.value, row.ours(), row.tolerance(), row.note)


def test_there_are_enough_rows_and_every_formula_has_one() -> None:
    assert len(ROWS) >= 150
    assert {row.formula for row in ROWS} == set(FORMULAS)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_row_says_where_its_value_comes_from(row: Row) -> None:
    assert row.mark.startswith(MARKS)
    assert row.source.startswith("source:")
    if row.mark.startswith("computed"):
        assert any(character.isdigit() for character in row.mark), "the version of what computed it"
    if row.meant_to_miss:
        assert len(row.note) > len("cannot be met: because")


def test_rows_are_named_once() -> None:
    names = [row.name for row in ROWS]
    assert sorted(set(names)) == sorted(names)


def test_half_of_the_last_printed_digit() -> None:
    assert half_last_digit("0.528282") == 0.5e-6
    assert half_last_digit("8.97E4") == 50.0
    assert half_last_digit("-12") == 0.5
