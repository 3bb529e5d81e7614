"""The estimate on paper: its lines, what each option comes to, and the signature of whoever said yes."""

import re
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from markupsafe import Markup

from api.estimate import OPTIONS, Line, Option, decimals, options_of, rounded
from api.pdf.figures import MINUS, NO_BREAK, Printer
from api.pdf.svg import INK, drawing, element

DRAWN = re.compile(r"(?:M\d{1,4} \d{1,4}(?:L\d{1,4} \d{1,4})*)+")
WIDTH, HEIGHT = 1000, 400
LONGEST_CURRENCY = 8  # signs printed: ISO 4217 has three, and what is longer breaks the columns of sums


@dataclass(frozen=True)
class Sum:
    """What an option comes to, as printed."""

    title: str
    rows: list[tuple[str, str]]
    total: str
    signed: str
    signature: Markup | None


@dataclass(frozen=True)
class Estimate:
    """The estimate as printed: groups of (title, rows), then the sums."""

    groups: list[tuple[str, list[list[str]]]]
    sums: list[Sum]
    valid: str
    rounding: str


def estimate(document: dict[str, Any], printer: Printer) -> Estimate | None:
    """The estimate of a job; None where it has no priced line."""
    given = document.get("estimate") or {}
    options = options_of(given)
    if not options:
        return None
    currency, say = str(given.get("currency") or ""), printer.words.say
    both = len(options) > 1
    groups = [
        (say(f"only_{name}") if both else "", [_row(line, currency, printer) for line in lines])
        for name in OPTIONS
        if (lines := [line for line in options[-1].lines if line.option == name])
    ]
    sums = [_sum(option, currency, printer, both) for option in options]
    until = printer.day(given.get("valid_until"))
    rounding = say("rounded_by_line" if given.get("rounding") == "line" else "rounded_by_total")
    return Estimate(groups, sums, say("valid_until", day=until) if until else "", rounding)


def money(amount: Decimal, currency: str, printer: Printer) -> str:
    """An amount with its currency: 1,234.50 EUR."""
    exact = f"{rounded(abs(amount), currency):,f}".translate(
        {ord(","): printer.words.group_sign, ord("."): printer.words.decimal_sign}
    )
    sign = MINUS if rounded(amount, currency) < 0 else ""
    return f"{sign}{exact}{NO_BREAK}{currency[:LONGEST_CURRENCY]}".strip(NO_BREAK)


def _row(line: Line, currency: str, printer: Printer) -> list[str]:
    count = f"{_plain(line.quantity, printer)}{NO_BREAK}{line.unit}".strip(NO_BREAK)
    off = f"{MINUS}{_plain(line.discount_pct, printer)}{NO_BREAK}%" if line.discount_pct else ""
    price = _plain(line.price, printer, fewest=decimals(currency))
    return [line.name, count, price, off, money(line.net, currency, printer)]


def _sum(option: Option, currency: str, printer: Printer, both: bool) -> Sum:
    say = printer.words.say
    taxes = [
        (
            say("tax_at", rate=_plain(one.rate, printer), net=money(one.net, currency, printer)),
            money(one.tax, currency, printer),
        )
        for one in option.taxes
    ]
    rows = [(say("net"), money(option.net, currency, printer)), *taxes]
    total = money(option.total, currency, printer)
    yes = option.authorisation
    signed = (
        ""
        if yes is None
        else say("authorised", name=yes.get("name", ""), amount=total, when=_when(yes, printer))
    )
    signature = None if yes is None else _signature(yes, printer)
    return Sum(say(f"option_{option.name}") if both else say("total"), rows, total, signed, signature)


def _when(yes: Any, printer: Printer) -> str:
    try:
        moment = datetime.fromisoformat(yes.get("at") or "")
    except ValueError:
        return "–"
    return f"{printer.day(yes['at'])}, {moment:%H:%M}"


def _signature(yes: Any, printer: Printer) -> Markup | None:
    """The finger's path; anything else than a path of ours is not drawn."""
    path = yes.get("signature") or ""
    if not DRAWN.fullmatch(path):
        return None
    stroke = element(
        "path",
        d=path,
        fill="none",
        stroke=INK,
        stroke_width=7,
        stroke_linecap="round",
        stroke_linejoin="round",
    )
    title = printer.words.say("signature_of", name=yes.get("name", ""))
    return Markup(drawing(WIDTH, HEIGHT, title, stroke))  # noqa: S704 - drawn by us, the path was looked at


def _plain(number: Decimal, printer: Printer, fewest: int = 0) -> str:
    """An exact number without noughts that say nothing."""
    whole, _, behind = f"{number:,f}".partition(".")
    behind = behind.rstrip("0").ljust(fewest, "0")
    shown = whole.replace(",", printer.words.group_sign).replace("-", MINUS)
    return f"{shown}{printer.words.decimal_sign}{behind}" if behind else shown
