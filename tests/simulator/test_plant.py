"""The simulated car obeys the balances it is made of, and bends the way the trade says."""

from dataclasses import replace
from itertools import pairwise
from random import Random

import pytest
from scipy.optimize import brentq

from fixtures.simulator.design import (
    STANDARD_SITE,
    Nominal,
    closure_for,
    nominal,
    offered,
    steady,
    vent_share_for,
)
from fixtures.simulator.gas import R, passage_flow
from fixtures.simulator.kinds import Kind
from fixtures.simulator.parts import Parts
from fixtures.simulator.plant import T_LINE, Plant, settle, settled_control

KINDS = ("pressure", "vacuum_wastegate", "vacuum_vgt", "electric", "electric_vgt")


def at_full_load(car: Nominal, rpm: float, duty: float, parts: Parts | None = None) -> Plant:
    share = 0.01 * duty
    on = share if car.kind.more_duty == "raises_boost" else 1.0 - share
    return settle(Plant(parts or car.parts, car.kind, STANDARD_SITE), rpm, on, seconds=15.0)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("seed", range(3))
def test_mass_and_energy_balance_when_nothing_moves(kind: str, seed: int) -> None:
    car = nominal(Random(seed), kind)
    plant = at_full_load(car, 0.6 * car.parts.rpm_end, car.unit.feed[4])
    assert plant.compressed == pytest.approx(plant.fresh + plant.leaked + plant.recirculated, rel=2e-3)
    assert car.parts.shaft_efficiency * plant.turbine_power == pytest.approx(plant.compressor_power, rel=5e-3)
    turbine, round_it = plant.areas()
    assert plant.p3 > plant.p4 > STANDARD_SITE.barometric
    assert turbine > 0.0 <= round_it
    density = plant.p_manifold / (R * plant.t_manifold)  # g/l
    implied = plant.fresh * 120.0 / (density * car.parts.litres * 0.6 * car.parts.rpm_end)
    assert 0.8 < implied < 0.96


@pytest.mark.parametrize("kind", KINDS)
def test_the_control_map_holds_the_boost_it_was_made_for(kind: str) -> None:
    """Friction alone may keep the nominal car from its aim: the map was made without it."""
    for seed in range(2):
        car = nominal(Random(f"map {seed}"), kind)
        smooth = replace(car.parts, friction=0.0)
        for rpm, aim, duty in list(zip(car.unit.rpm, car.unit.boost, car.unit.feed, strict=True))[3:6]:
            assert at_full_load(car, rpm, duty, smooth).p2 == pytest.approx(aim, rel=0.035)


def test_closure_balances_the_shaft() -> None:
    """The bisection against scipy's root."""
    car = nominal(Random(5), "pressure")
    at = steady(car.parts, car.kind, 3500.0, 190.0)
    root = brentq(lambda closure: offered(car.parts, car.kind, at, closure)[0] - at.power, 0.0, 1.0)
    assert closure_for(car.parts, car.kind, at)[0] == pytest.approx(root, abs=1e-5)


@pytest.mark.parametrize("arrangement", ["bleed", "changeover"])
@pytest.mark.parametrize("on", [0.0, 0.2, 0.5, 0.8, 1.0])
def test_control_pressure_lies_where_two_passages_balance(arrangement: str, on: float) -> None:
    parts = Parts(dead_duty=0.0)
    kind = Kind(arrangement=arrangement)
    supply, vent = 200.0, 98.0
    to_supply = parts.supply_area * (1.0 if arrangement == "bleed" else 1.0 - on)
    to_vent = parts.vent_area * on

    def balance(p: float) -> float:
        return passage_flow(to_supply, supply, p, T_LINE) - passage_flow(to_vent, p, vent, T_LINE)

    found = settled_control(parts, kind, on, supply, vent, 100.0)
    expected = brentq(balance, vent, supply)
    assert found == pytest.approx(expected, abs=0.3)
    if 0.0 < on < 1.0:
        share = vent_share_for(parts, kind, found, supply, vent)
        assert share == pytest.approx(on, abs=0.02)


def test_bleed_example_of_the_reference_values() -> None:
    """C2/C1 = 2·D, supply 120 kPa gauge at 101.325: 111.934, 90.741, 64.361 kPa (scipy brentq, ISO 6358)."""
    parts = Parts(dead_duty=0.0, supply_area=0.8, vent_area=1.6)
    for duty, expected in ((0.2, 111.934), (0.4, 90.741), (0.6, 64.361)):
        found = settled_control(parts, Kind(), duty, 221.325, 101.325, 101.325) - 101.325
        assert found == pytest.approx(expected, abs=0.3)


@pytest.mark.parametrize("kind", KINDS)
def test_more_duty_towards_more_boost_gives_more_boost(kind: str) -> None:
    car = nominal(Random("monotone"), kind)
    boosts = [at_full_load(car, 0.55 * car.parts.rpm_end, duty).p2 for duty in (5.0, 30.0, 55.0, 80.0)]
    assert all(later >= earlier - 0.5 for earlier, later in pairwise(boosts))
    assert boosts[-1] > boosts[0] + 20.0
