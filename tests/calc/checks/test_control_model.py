"""The control pressure that a duty should give, fitted to this car's bench sweep and used on the road.

Truth: two ideal nozzles in series, solved here by scipy (reference-values table of two orifices).
"""

from typing import Any

import pytest
from scipy import optimize

from calc.checks.control_model import expected_ratio, fitted
from calc.checks.evidence import Evidence
from tests.calc.checks.bench import job

FINE = {"id": "g1", "kind": "digital", "span_kpa": [-100, 400], "accuracy_pct_reading": 0.1,
        "accuracy_counts": 1, "resolution_kpa": 0.1}  # fmt: skip
OUTSIDE = 100.0


def flow(ratio: float) -> float:
    """Isentropic flow function, gamma 1.4; Heywood C.8 and C.9, from memory."""
    held = max(ratio, 0.528282)
    return float((7.0 * (held ** (2 / 1.4) - held ** (2.4 / 1.4))) ** 0.5)


def between(size: float, supply: float, vent: float) -> float:
    """Absolute pressure between supply and vent, kPa."""
    if size == 0.0:
        return supply
    if size > 1e6:
        return vent
    return float(
        optimize.brentq(lambda p: supply * flow(p / supply) - size * p * flow(vent / p), vent + 1e-9, supply)
    )


def size_at(arrangement: str, duty: float, areas: float) -> float:
    share = duty / 100.0
    return areas * share if arrangement == "bleed" else areas * share / max(1.0 - share, 1e-9)


def evidence(
    arrangement: str, areas: float, duties: list[float], supply: float = 80.0, **more: Any
) -> Evidence:
    rows = [
        {
            "duty_pct": duty,
            "supply_kpa": supply,
            "control_kpa": round(
                between(size_at(arrangement, duty, areas), OUTSIDE + supply, OUTSIDE) - OUTSIDE, 1
            ),
        }
        for duty in duties
    ]
    kind = {"arrangement": more.pop("told", arrangement), "more_duty": "raises_boost"}
    found = job(
        {"solenoid": {"gauge": "g1", "sweep": rows}, **more},
        boost_control=kind,
        site={"barometric_kpa_abs": OUTSIDE},
    )
    return Evidence({**found, "gauges": [FINE]})


@pytest.mark.parametrize(
    ("arrangement", "areas"),
    [("changeover", 1.2), ("changeover", 1.4), ("changeover", 2.6), ("bleed", 1.7), ("bleed", 2.6)],
)
def test_the_passages_are_found_again(arrangement: str, areas: float) -> None:
    own = fitted(evidence(arrangement, areas, [0, 20, 40, 60, 80, 100]))
    assert own is not None
    assert own.ratio == pytest.approx(areas, rel=0.01)
    assert abs(own.ratio - areas) <= 2.0 * own.uncertainty


@pytest.mark.parametrize("arrangement", ["bleed", "changeover"])
@pytest.mark.parametrize("told", ["itself", "unknown"])
@pytest.mark.parametrize("duty", [15.0, 35.0, 55.0, 75.0])
def test_a_sweep_at_80_kpa_tells_what_the_road_gives_at_130(arrangement: str, told: str, duty: float) -> None:
    """The ratio itself moves with the supply, so the areas are carried over, not the ratio."""
    here = evidence(
        arrangement,
        1.8,
        [0, 20, 40, 60, 80, 100],
        told=arrangement if told == "itself" else told,
        intake_depression={"gauge": "g1", "p_kpa": -3.0},
    )
    found = expected_ratio(here, duty, 130.0)
    assert found is not None
    true = (between(size_at(arrangement, duty, 1.8), OUTSIDE + 130.0, OUTSIDE - 3.0) - OUTSIDE) / 130.0
    assert found[0] == pytest.approx(true, abs=2.0 * found[1])
    assert found[0] == pytest.approx(true, abs=0.025)


def test_the_vent_leads_below_the_atmosphere() -> None:
    """Changeover, all vented: the line stands at the compressor's inlet, 3 kPa below unless it was read."""
    usual = expected_ratio(evidence("changeover", 1.4, []), 100.0, 100.0)
    read = expected_ratio(
        evidence("changeover", 1.4, [], intake_depression={"gauge": "g1", "p_kpa": -5.0}), 100.0, 100.0
    )
    assert usual is not None
    assert read is not None
    assert usual[0] == pytest.approx(-0.03, abs=0.002)
    assert read[0] == pytest.approx(-0.05, abs=0.002)


def test_the_two_arrangements_of_the_trade() -> None:
    """At 105 kPa and 92 % a bleed may leave 28 kPa, a changeover 1 kPa (common practice, no source)."""
    bleed = expected_ratio(evidence("bleed", 2.0, []), 92.0, 105.0)
    changeover = expected_ratio(evidence("changeover", 1.4, []), 92.0, 105.0)
    assert bleed is not None
    assert changeover is not None
    assert bleed[0] * 105.0 == pytest.approx(28.0, abs=3.0)
    assert changeover[0] * 105.0 == pytest.approx(1.0 - 3.0, abs=1.0)  # its vent lies 3 kPa deeper


def test_unknown_without_a_sweep_is_not_judged() -> None:
    assert expected_ratio(evidence("bleed", 2.0, [], told="unknown"), 50.0, 100.0) is None


def test_a_sweep_that_is_outside_is_not_used() -> None:
    """Every share the same: nothing follows, and the usual areas stand."""
    here = evidence("changeover", 0.0, [0, 50, 100])
    assert fitted(here) is None
    found = expected_ratio(here, 50.0, 100.0)
    usual = expected_ratio(evidence("changeover", 1.4, []), 50.0, 100.0)
    assert found == usual


@pytest.mark.parametrize("duty", [10.0, 50.0, 90.0])
def test_a_vacuum_car_is_fitted_by_its_depth(duty: float) -> None:
    """Air comes in by the vent and leaves to the vacuum: the same passages, the other way round."""
    kind = {
        "arrangement": "changeover",
        "actuator": "vacuum",
        "device": "variable_geometry",
        "more_duty": "raises_boost",
    }

    def control(on: float, supply: float) -> float:
        vent = 1.0 - on / 100.0
        turned = 1e9 if vent <= 0.0 else (1.0 - vent) / (1.5 * vent)
        return between(turned, OUTSIDE, OUTSIDE + supply) - OUTSIDE

    rows = [
        {"duty_pct": on, "supply_kpa": -70.0, "control_kpa": round(control(on, -70.0), 1)}
        for on in (0, 20, 40, 60, 80, 100)
    ]
    found = job(
        {"solenoid": {"gauge": "g1", "sweep": rows}},
        boost_control=kind,
        site={"barometric_kpa_abs": OUTSIDE},
    )
    here = Evidence({**found, "gauges": [FINE]})
    own = fitted(here)
    assert own is not None
    assert own.ratio == pytest.approx(1.5, rel=0.02)
    expected = expected_ratio(here, duty, -85.0)
    assert expected is not None
    assert expected[0] == pytest.approx(control(duty, -85.0) / -85.0, abs=0.02)
