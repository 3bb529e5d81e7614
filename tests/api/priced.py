"""Estimates for generated jobs, and what a report must show of them, worked out apart from our own code."""

import random
from fractions import Fraction
from typing import Any

from tests.api.money import by_fractions, half_away

OPTIONS = ("mend", "mend_and_renew")
COIN = 100  # of a pound


def with_estimate(job: dict[str, Any], seed: int) -> dict[str, Any]:
    """The job with an estimate of up to six lines."""
    rng = random.Random(f"estimate {seed}")
    lines = [_line(rng, number) for number in range(rng.randrange(1, 7))]
    rounding = rng.choice(["line", "total"])
    estimate = {"currency": "GBP", "valid_until": "2026-12-24", "rounding": rounding, "lines": lines}
    return job | {"estimate": estimate}


def _line(rng: random.Random, number: int) -> dict[str, str]:
    return {
        "option": rng.choice(OPTIONS),
        "kind": rng.choice(["part", "labour", "other"]),
        "name": f"Line {number} {rng.choice(['hose clamps', 'work', 'actuator', 'Prüffahrt'])}",
        "quantity": rng.choice(["1", "0.5", "2", "12", "1.25"]),
        "price": f"{rng.randrange(100, 400000) / 100:.2f}",
        "discount_pct": rng.choice(["0", "0", "10", "2.5"]),
        "tax_pct": rng.choice(["20", "20", "5", "0"]),
    }


def shown_of(job: dict[str, Any]) -> list[str]:
    """Every name, net, tax and total of the estimate as an English report prints them."""
    estimate = job["estimate"]
    shown = [line["name"] for line in estimate["lines"]]
    shown += [_money(_net(line)) for line in estimate["lines"]]
    is_second = any(line["option"] == OPTIONS[1] for line in estimate["lines"])
    for option in OPTIONS if is_second else OPTIONS[:1]:
        net, tax = by_fractions(estimate, option)
        shown += [_money(net), _money(net + tax)]
    return shown


def _net(line: dict[str, str]) -> Fraction:
    share = 1 - Fraction(line["discount_pct"]) / 100
    return half_away(Fraction(line["quantity"]) * Fraction(line["price"]) * share, COIN)


def _money(amount: Fraction) -> str:
    return f"{float(amount):,.2f}\N{NO-BREAK SPACE}GBP"
