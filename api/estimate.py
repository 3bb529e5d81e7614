"""The estimate: lines, tax and totals in exact decimals; `pwa/parts/money.js` reckons the same on the phone.

Where it is rounded, and nowhere else: a line's net amount to the smallest coin; the tax on the sum of each
rate (`total`, as EN 16931 has it), or on each line (`line`). Always half away from nought.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Context, Decimal
from functools import reduce
from typing import Any

# ISO 4217: currencies whose smallest coin is not a hundredth; all others have two decimals.
DECIMALS = {"JPY": 0, "ISK": 0, "KRW": 0, "CLP": 0, "HUF": 0, "KWD": 3, "BHD": 3, "TND": 3}
OPTIONS = ("mend", "mend_and_renew")
EXACT = Context(prec=60, rounding=ROUND_HALF_UP)
HUNDRED = Decimal(100)
DAY = len("2026-11-25")
SIGNED_FIELDS = ("option", "kind", "name", "unit", "quantity", "price", "discount_pct", "tax_pct")


@dataclass(frozen=True)
class Line:
    """One line as it is charged: `net` is quantity times price less the discount, rounded."""

    option: str
    kind: str
    name: str
    unit: str
    quantity: Decimal
    price: Decimal
    discount_pct: Decimal
    tax_pct: Decimal
    net: Decimal
    signed: str


@dataclass(frozen=True)
class Tax:
    """What is taxed at one rate, and the tax on it."""

    rate: Decimal
    net: Decimal
    tax: Decimal


@dataclass(frozen=True)
class Option:
    """One way of mending, with its sum."""

    name: str
    lines: list[Line]
    net: Decimal
    taxes: list[Tax]
    tax: Decimal
    total: Decimal
    covers: list[str]
    authorisation: Mapping[str, Any] | None


def options_of(estimate: Mapping[str, Any]) -> list[Option]:
    """The options that the estimate offers: `mend` alone, or both where a line belongs to the second.

    A line without a price is left out: it promises nothing.
    """
    currency = str(estimate.get("currency") or "")
    lines = [_line(one, currency) for one in estimate.get("lines") or [] if one and "price" in one]
    has_two = any(line.option == OPTIONS[1] for line in lines)
    chosen = OPTIONS if has_two else OPTIONS[:1]
    return [_option(name, lines, estimate, currency) for name in chosen] if lines else []


def decimals(currency: str) -> int:
    """How many decimals the smallest coin of a currency has (ISO 4217)."""
    return DECIMALS.get(currency, 2)


def coin(currency: str) -> Decimal:
    """The smallest coin of a currency."""
    return Decimal(1).scaleb(-decimals(currency))


def rounded(amount: Decimal, currency: str) -> Decimal:
    """An amount to the smallest coin, half away from nought."""
    return EXACT.plus(amount.quantize(coin(currency), context=EXACT))  # no minus before a nought


def _sum(amounts: Iterable[Decimal]) -> Decimal:
    return reduce(EXACT.add, amounts, Decimal(0))


def _line(given: Mapping[str, Any], currency: str) -> Line:
    quantity, price = Decimal(given.get("quantity", "1")), Decimal(given["price"])
    discount, tax = Decimal(given.get("discount_pct", "0")), Decimal(given.get("tax_pct", "0"))
    whole = EXACT.multiply(EXACT.multiply(quantity, price), HUNDRED - discount)
    return Line(
        option=given.get("option", OPTIONS[0]),
        kind=given.get("kind", "other"),
        name=given.get("name", ""),
        unit=given.get("unit", ""),
        quantity=quantity,
        price=price,
        discount_pct=discount,
        tax_pct=tax,
        net=rounded(EXACT.divide(whole, HUNDRED), currency),
        signed="\t".join(str(given.get(name, "")) for name in SIGNED_FIELDS),
    )


def _option(name: str, lines: Iterable[Line], estimate: Mapping[str, Any], currency: str) -> Option:
    own = [line for line in lines if line.option in (OPTIONS[0], name)]
    by_line = estimate.get("rounding") == "line"
    taxes = [_tax(rate, own, currency, by_line) for rate in sorted({line.tax_pct for line in own})]
    net, tax = _sum(line.net for line in own), _sum(one.tax for one in taxes)
    total = EXACT.add(net, tax)
    covers = [f"{currency}\t{total:f}", *(line.signed for line in own)]
    return Option(name, own, net, taxes, tax, total, covers, _authorisation(estimate, name, covers))


def _tax(rate: Decimal, lines: Iterable[Line], currency: str, by_line: bool) -> Tax:
    nets = [line.net for line in lines if line.tax_pct == rate]
    net = _sum(nets)
    taxed = nets if by_line else [net]
    taxes = (rounded(EXACT.divide(EXACT.multiply(one, rate), HUNDRED), currency) for one in taxed)
    return Tax(rate, net, _sum(taxes))


def _authorisation(estimate: Mapping[str, Any], name: str, covers: list[str]) -> Mapping[str, Any] | None:
    """The last yes to exactly this, given while the price held; any other counts for nothing."""
    until = str(estimate.get("valid_until") or "")
    given = [one for one in estimate.get("authorisations") or [] if one and in_time(one, until)]
    fitting = [one for one in given if one.get("option") == name and one.get("covers") == covers]
    return fitting[-1] if fitting else None


def in_time(yes: Mapping[str, Any], until: str) -> bool:
    """Whether a yes was given by a price's last day; days as the clock showed them where it was signed."""
    return not until or "" < str(yes.get("at") or "")[:DAY] <= until
