"""Gauge, doubt, decision."""

import math
from typing import Any

from calc.uncertainty import decision, gauge, propagation
from tests.published.formulas.registry import formula


def dial(**cells: float | str) -> gauge.Pressure:
    """A dial in kPa, its reading at 0."""
    entry: dict[str, Any] = {"id": "g", "kind": "analogue", "division_kpa": 1.0, "read_to": "half"}
    low, high = cells.pop("low_bar", 0.0), cells.pop("high_bar", 4.0)
    assert isinstance(low, float)
    assert isinstance(high, float)
    return gauge.read(0.0, {**entry, "span_kpa": [100.0 * low, 100.0 * high], **cells})


@formula
def class_limit_bar(**cells: float | str) -> float:
    return dial(**cells).shared * math.sqrt(3.0) / 100.0


@formula
def class_u_bar(**cells: float | str) -> float:
    return dial(**cells).shared / 100.0


@formula
def reading_u_bar(**cells: float | str) -> float:
    return dial(**cells).own / 100.0


@formula
def gauge_u_bar(**cells: float | str) -> float:
    return dial(**cells).uncertainty / 100.0


@formula
def digital_u_bar(reading_bar: float, pct: float, counts: float, resolution_bar: float) -> float:
    return digital(reading_bar, pct, counts, resolution_bar).uncertainty / 100.0


@formula
def digital_class_u_bar(reading_bar: float, pct: float, counts: float, resolution_bar: float) -> float:
    return digital(reading_bar, pct, counts, resolution_bar).shared / 100.0


def digital(reading_bar: float, pct: float, counts: float, resolution_bar: float) -> gauge.Pressure:
    entry = {
        "id": "g",
        "kind": "digital",
        "accuracy_pct_reading": pct,
        "accuracy_counts": counts,
        "resolution_kpa": 100.0 * resolution_bar,
    }
    return gauge.read(100.0 * reading_bar, entry)


@formula
def inside_probability(y: float, u: float, low: float, high: float) -> float:
    ends = [None if math.isinf(end) else end for end in (low, high)]
    return decision.chances(y, u, decision.Limit(*ends)).inside


@formula
def decided(y: float, u: float, low: float, high: float) -> str:
    limit = decision.Limit(low, high)
    return decision.outcome(y, limit, decision.chances(y, u, limit))


@formula
def dial_decided(p_kpa: float, low: float, high: float) -> str:
    """The dial of the project's own example: 0 to 400 kPa, class 1.6, 10 kPa, read to the half."""
    entry = {"id": "g", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10}
    return decided(p_kpa, gauge.read(p_kpa, entry).uncertainty, low, high)


@formula
def joined_u(first: float, second: float) -> float:
    return propagation.propagate(lambda a, b: a + b, {"a": 0.0, "b": 0.0}, {"a": first, "b": second})
