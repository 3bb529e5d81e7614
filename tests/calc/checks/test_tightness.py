"""Smoke and pressure decay, by the contract's table and the reference decay cases."""

import math
from typing import Any

import pytest
from scipy import integrate, stats

from calc.physics.orifice import hole_area, mass_flow
from tests.calc.checks.bench import DIAL, finding

R = 287.05287
LIMIT = {"charge_leak_hole_mm": {"max": 1.0}}
SITE = {"barometric_kpa_abs": 101.325}


def decay(p_start: float, p_end: float, t_s: float, spec: dict[str, Any] | None = None, **more: Any) -> Any:
    test = {
        "gauge": "g1",
        "volume_l": 10.0,
        "air_c": 20,
        "readings": [{"t_s": 0, "p_kpa": p_start}, {"t_s": t_s, "p_kpa": p_end}],
        **more,
    }
    return finding("charge_leak_hole", {"charge_decay": test}, spec=spec or LIMIT, site=SITE)


@pytest.mark.parametrize(("smoke", "outcome"), [
    ({"leak_seen": False}, "within"),
    ({"leak_seen": True}, "outside"),
    ({"leak_seen": True, "places": [{"where": "hose", "size": "weep"}]}, "outside"),
    ({"leak_seen": False, "places": [{"where": "hose", "size": "weep"}]}, "within"),
    ({"places": [{"where": "hose", "size": "weep"}]}, "outside"),
    ({}, "not_examined"),
])  # fmt: skip
def test_smoke_goes_by_what_was_seen(smoke: dict[str, Any], outcome: str) -> None:
    assert finding("smoke_leak", {"smoke": smoke}).outcome == outcome


@pytest.mark.parametrize(("litres", "start", "end", "seconds", "mm"), [
    (10, 150, 100, 60, 0.61826), (10, 100, 80, 60, 0.42469), (8, 50, 45, 120, 0.15640),
    (12, 30, 10, 10, 1.66782),
])  # fmt: skip
def test_the_four_inverse_holes_of_the_reference_table(
    litres: float, start: float, end: float, seconds: float, mm: float
) -> None:
    found = decay(start, end, seconds, volume_l=litres)
    assert found.value == pytest.approx(mm, rel=2e-3 if end == 45 else 1e-4)


@pytest.mark.parametrize("seconds", [11, 12, 13, 14, 16])
def test_decided_on_the_area_by_the_true_probability(seconds: float) -> None:
    found = decay(60, 40, seconds, volume_u_l=0.5)
    area, u = found.facts["area_m2"], found.facts["area_u_m2"]
    assert found.chances.inside == pytest.approx(stats.norm(area, u).cdf(hole_area(1e-3)), abs=1e-9)
    assert found.value == pytest.approx(2e3 * math.sqrt(area / math.pi))


def test_the_doubt_of_the_area_is_that_of_all_inputs() -> None:
    """The same hole by numerical integration of the plain equation, one input moved at a time."""
    found = decay(60, 40, 30, volume_u_l=0.5)

    def area(shift: float = 0, start: float = 60, end: float = 40, litres: float = 10, cd: float = 0.62,
             celsius: float = 20, outside: float = 101.325) -> float:  # fmt: skip
        T, ambient = celsius + 273.15, outside * 1e3
        low, high = ((p + shift + outside) * 1e3 for p in (end, start))

        def seconds_per_pascal(p: float) -> float:
            return litres / 1e3 / (R * T) / mass_flow(cd, 1.0, p, ambient, T)

        return float(integrate.quad(seconds_per_pascal, low, high)[0]) / 30.0

    own, shared = 5 / 12**0.5, 6.4 / 3**0.5
    steps = {"shift": shared, "start": own, "end": own, "litres": 0.25, "cd": 0.03, "celsius": 1.0,
             "outside": 0.15}  # fmt: skip
    middle = {"shift": 0, "start": 60, "end": 40, "litres": 10, "cd": 0.62, "celsius": 20, "outside": 101.325}
    shares = [
        (area(**{**middle, name: middle[name] + u}) - area(**{**middle, name: middle[name] - u})) / 2
        for name, u in steps.items()
    ]
    assert found.facts["area_u_m2"] == pytest.approx(math.sqrt(math.fsum(s * s for s in shares)), rel=1e-3)


def test_the_volume_is_ten_per_cent_in_doubt_unless_said() -> None:
    rough, fine = decay(60, 40, 30), decay(60, 40, 30, volume_u_l=0.1)
    assert rough.facts["area_u_m2"] > fine.facts["area_u_m2"]
    same = decay(60, 40, 30, volume_u_l=1.0)
    assert same.facts["area_u_m2"] == pytest.approx(rough.facts["area_u_m2"])


def test_emptied_between_two_readings_accuses_as_a_lower_bound_and_never_clears() -> None:
    large = decay(60, 0, 2)
    assert (large.outcome, large.lower_bound) == ("outside", True)
    small = decay(60, 0, 600)
    assert (small.outcome, small.lower_bound) == ("undecided", True)


def test_pressure_without_a_gauge_never_clears() -> None:
    found = decay(60, 59.9, 60, gauge=None)
    assert found.value < 0.5
    assert found.outcome == "undecided"


def test_a_tight_circuit_is_within() -> None:
    assert decay(60, 59, 120).outcome == "within"


def test_without_volume_nothing_is_said() -> None:
    found = decay(60, 40, 30, volume_l=None)
    assert (found.outcome, found.facts["because"]) == ("not_examined", "no_volume")


def test_without_limit_the_hole_is_still_given() -> None:
    found = decay(60, 40, 30, spec={"source": "none"})
    assert (found.outcome, found.limit) == ("not_examined", None)
    assert found.value is not None


def test_cooling_is_taken_out() -> None:
    """Reference row: 10 L, 50 to 48 kPa, 25.0 to 23.5 degC in 300 s lose 0.48488 mg/s, not 0.77896."""
    plain = decay(50, 48, 300, air_c=25)
    cooled = decay(50, 48, 300, air_c=25, air_end_c=23.5)
    ratio = cooled.facts["area_m2"] / plain.facts["area_m2"]
    assert ratio == pytest.approx(0.48488 / 0.77896, rel=0.005)
    assert cooled.facts["area_u_m2"] > plain.facts["area_u_m2"]


def test_the_adiabatic_hole_stands_beside_it() -> None:
    """Adiabatic times are 26 to 28 % shorter: so is the area that explains a time."""
    found = decay(150, 100, 60)
    assert found.facts["adiabatic_area_m2"] / found.facts["area_m2"] == pytest.approx(
        16.64405 / 22.93441, rel=1e-4
    )


@pytest.mark.parametrize("by", [
    {"strokes": 75, "stroke_ml": 80, "from_kpa": 0, "to_kpa": 60},
    {"tank_l": 5.067, "tank_from_kpa": 200, "tank_to_kpa": 80, "from_kpa": 0, "to_kpa": 60},
])  # fmt: skip
def test_the_volume_by_pump_strokes_or_a_tank(by: dict[str, float]) -> None:
    found = decay(60, 40, 30, volume_l=None, volume_by=by)
    assert found.value == pytest.approx(decay(60, 40, 30, volume_l=10.133).value, rel=1e-3)
    assert "/tests/charge_decay/volume_by" in found.read_from


def test_one_gauge_shifts_both_ends() -> None:
    """With the class error independent at each end the doubt of a small fall would be many times larger."""
    coarse = finding(
        "charge_leak_hole",
        {
            "charge_decay": {
                "gauge": "g1",
                "volume_l": 10,
                "readings": [{"t_s": 0, "p_kpa": 60}, {"t_s": 60, "p_kpa": 58}],
            }
        },
        gauges=[{**DIAL, "class_pct": 4.0, "division_kpa": 1}],
        spec=LIMIT,
        site=SITE,
    )
    assert coarse.facts["area_u_m2"] < 0.35 * coarse.facts["area_m2"]


def test_a_rise_beyond_the_doubt_is_no_fall() -> None:
    found = decay(60, 80, 60)
    assert (found.outcome, found.facts["because"]) == ("not_examined", "no_fall_to_judge")
