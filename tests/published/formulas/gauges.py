"""Gauge, doubt, decision."""

import math
from typing import Any

from calc.uncertainty import decision, gauge
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
