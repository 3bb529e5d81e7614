"""An estimate worked out once more in exact fractions, without decimals."""

from fractions import Fraction
from math import floor
from typing import Any

COINS = {"EUR": 100, "GBP": 100, "JPY": 1, "KWD": 1000}  # ISO 4217


def half_away(amount: Fraction, coins: int) -> Fraction:
    """To a whole coin, by integers alone."""
    size = Fraction(floor(abs(amount) * coins + Fraction(1, 2)), coins)
    return size if amount >= 0 else -size


def by_fractions(estimate: dict[str, Any], option: str) -> tuple[Fraction, Fraction]:
    """Net and tax of an option, worked out once more without decimals."""
    coins, taxed, nets = COINS[estimate["currency"]], {}, []
    for line in estimate["lines"]:
        if line.get("option", "mend") not in ("mend", option):
            continue
        share = 1 - Fraction(line.get("discount_pct", "0")) / 100
        net = half_away(Fraction(line.get("quantity", "1")) * Fraction(line["price"]) * share, coins)
        nets.append(net)
        taxed.setdefault(Fraction(line.get("tax_pct", "0")), []).append(net)
    tax = Fraction(0)
    for rate, parts in taxed.items():
        bases = parts if estimate["rounding"] == "line" else [sum(parts)]
        tax += sum(half_away(base * rate / 100, coins) for base in bases)
    return sum(nets, Fraction(0)), tax
