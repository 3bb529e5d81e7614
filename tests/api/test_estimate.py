"""Money to the coin: against exact fractions, published rules of tax, and worked invoices."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from api.estimate import OPTIONS, options_of
from tests.api.money import by_fractions

AMOUNTS = st.from_regex(r"\A-?[0-9]{1,9}(\.[0-9]{1,6})?\Z")
SHARES = st.from_regex(r"\A[0-9]{1,2}(\.[0-9]{1,6})?\Z")
LINES = st.fixed_dictionaries(
    {"price": AMOUNTS},
    optional={
        "option": st.sampled_from(OPTIONS),
        "kind": st.sampled_from(["part", "labour", "other"]),
        "name": st.text(max_size=8),
        "quantity": AMOUNTS,
        "discount_pct": SHARES,
        "tax_pct": SHARES,
    },
)
ESTIMATES = st.fixed_dictionaries(
    {
        "currency": st.sampled_from(["EUR", "GBP", "JPY", "KWD"]),
        "rounding": st.sampled_from(["line", "total"]),
        "lines": st.lists(LINES, max_size=8),
    }
)


@settings(max_examples=300, deadline=None)
@given(ESTIMATES)
def test_lines_tax_and_total_agree_to_the_coin(estimate: dict[str, Any]) -> None:
    for option in options_of(estimate):
        assert sum(map(Fraction, (line.net for line in option.lines))) == Fraction(option.net)
        assert Fraction(option.net) + Fraction(option.tax) == Fraction(option.total)
        assert sum(Fraction(one.net) for one in option.taxes) == Fraction(option.net)
        assert (Fraction(option.net), Fraction(option.tax)) == by_fractions(estimate, option.name)


def estimate(*lines: tuple[str, str, str], rounding: str = "total", currency: str = "GBP") -> dict[str, Any]:
    """An estimate of lines (quantity, price, tax)."""
    rows = [{"quantity": count, "price": price, "tax_pct": tax} for count, price, tax in lines]
    return {"currency": currency, "rounding": rounding, "lines": rows}


def test_the_worked_invoice_of_the_european_standard() -> None:
    """EN 16931-1, rules BR-CO-10, -13, -15 and -17, by the base example of Peppol BIS Billing 3.0
    (OpenPEPPOL/peppol-bis-invoice-3, rules/examples/base-example.xml at 81497bfb, read 25 November 2026):
    7 days at 400, -3 days at 500 and a charge of 25, all at 25 %; 1325 without tax, 331.25 of tax, 1656.25.
    """
    (one,) = options_of(estimate(("7", "400", "25"), ("-3", "500", "25"), ("1", "25", "25"), currency="EUR"))
    assert [str(line.net) for line in one.lines] == ["2800.00", "-1500.00", "25.00"]
    assert (str(one.net), str(one.tax), str(one.total)) == ("1325.00", "331.25", "1656.25")


def test_a_line_of_tax_goes_to_the_nearest_penny() -> None:
    """HMRC, VAT guide (Notice 700), 17.5: tax of a line may go to the nearer 1p (HMRC's manual VATREC12010
    says so too, read 25 November 2026). Its example, 86.76p rounded to 87p, from memory."""
    (one,) = options_of(estimate(("1", "4.338", "20"), rounding="line"))
    assert str(one.tax) == "0.87"
    assert Decimal("4.338") * 20 == Decimal("86.760")


def test_the_two_ways_of_rounding_differ_where_they_must() -> None:
    """Three taxes of 0.0038 are nothing by line, one cent by total: common practice, no source."""
    lines = [("1", "0.02", "19")] * 3
    by_line, by_total = (options_of(estimate(*lines, rounding=how))[0] for how in ("line", "total"))
    assert (str(by_line.tax), str(by_total.tax)) == ("0.00", "0.01")


def test_the_second_option_holds_the_first() -> None:
    both = options_of(
        {"currency": "EUR", "lines": [{"price": "80"}, {"price": "300", "option": "mend_and_renew"}]}
    )
    assert [(one.name, str(one.total)) for one in both] == [("mend", "80.00"), ("mend_and_renew", "380.00")]


def test_a_yes_counts_for_this_amount_and_these_lines_alone() -> None:
    offered = {"currency": "EUR", "lines": [{"name": "Rod", "price": "80", "tax_pct": "19"}]}
    signed = {"name": "R. Fenn", "option": "mend", "covers": options_of(offered)[0].covers}
    offered["authorisations"] = [signed]
    assert options_of(offered)[0].authorisation is signed
    dearer = offered | {"lines": [{"name": "Rod", "price": "81", "tax_pct": "19"}]}
    other = offered | {"lines": [{"name": "Hose", "price": "80", "tax_pct": "19"}]}
    assert options_of(dearer)[0].authorisation is options_of(other)[0].authorisation is None


def test_a_yes_counts_only_while_the_price_held() -> None:
    lines = [{"name": "Rod", "price": "80", "tax_pct": "19"}]
    offered = {"currency": "EUR", "lines": lines, "valid_until": "2026-12-24"}
    covers = options_of(offered)[0].covers
    for at, counts in (
        ("2026-12-24T23:59:00+01:00", True),  # the day is the one that the signer's clock showed
        ("2026-12-25T00:00:00+01:00", False),
        ("", False),
    ):
        offered["authorisations"] = [{"name": "R. Fenn", "option": "mend", "covers": covers, "at": at}]
        assert (options_of(offered)[0].authorisation is not None) == counts, at


@pytest.mark.parametrize(
    "amount", ["1e5", "NaN", "1,5", ".5", "5.", "+1", "1234567890", "1.1234567", "", "٣"]
)
def test_what_is_no_exact_amount_never_enters_a_job(amount: str) -> None:
    with pytest.raises(calc.BrokenPlace, match="where an amount"):
        calc.check_place("/estimate/lines/a", {"price": amount})
