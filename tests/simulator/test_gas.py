"""The simulator's closed forms against general-purpose libraries and integration."""

import math

import fluids
import pytest
from CoolProp.CoolProp import PropsSI
from scipy.optimize import brentq

from fixtures.simulator import gas


def isentropic_nozzle(area: float, p_up: float, p_down: float, kelvin: float, gamma: float = 1.4) -> float:
    """Flow of an ideal nozzle [g/s], Heywood appendix C, from memory; critical ratio by fluids."""
    critical = fluids.compressible.P_critical_flow(1.0, gamma)
    r = max(p_down / p_up, critical)
    psi = math.sqrt(2.0 * gamma / (gamma - 1.0) * (r ** (2.0 / gamma) - r ** ((gamma + 1.0) / gamma)))
    return area * p_up * psi / math.sqrt(287.05 * kelvin)


@pytest.mark.parametrize("ratio", [0.1, 0.3, 0.5283, 0.6, 0.7, 0.8, 0.9, 0.97])
def test_passage_is_an_ideal_nozzle_within_a_third_of_a_per_cent(ratio: float) -> None:
    ours = gas.passage_flow(2.0, 200.0, 200.0 * ratio, 300.0)
    assert ours == pytest.approx(isentropic_nozzle(2.0, 200.0, 200.0 * ratio, 300.0), rel=4e-3)


def test_nothing_flows_uphill() -> None:
    assert gas.passage_flow(2.0, 100.0, 100.0, 300.0) == 0.0
    assert gas.passage_flow(2.0, 100.0, 130.0, 300.0) == 0.0


@pytest.mark.parametrize(("p_a", "p_b"), [(200.0, 100.0), (100.0, 200.0), (150.0, 149.0)])
def test_conductance_gives_the_passage_flow(p_a: float, p_b: float) -> None:
    flow = gas.conductance(1.5, p_a, p_b, 300.0) * abs(p_a - p_b)
    assert flow == pytest.approx(gas.passage_flow(1.5, max(p_a, p_b), min(p_a, p_b), 300.0), rel=1e-9)


@pytest.mark.parametrize("flow", [5.0, 40.0, 90.0, 200.0, 600.0])
def test_pressure_before_the_turbine_drives_the_flow(flow: float) -> None:
    """The quadratic against scipy's root of the same ellipse."""

    def through(p: float) -> float:
        b, r = gas.CRITICAL_TURBINE, 103.0 / p
        shape = 1.0 if r <= b else math.sqrt(max(1.0 - ((r - b) / (1.0 - b)) ** 2, 0.0))
        return 300.0 * p * gas.PSI_EXHAUST * shape / math.sqrt(287.05 * 1000.0) - flow

    assert gas.pressure_before(flow, 300.0, 103.0, 1000.0) == pytest.approx(
        brentq(through, 103.0, 9e3), rel=1e-8
    )


@pytest.mark.parametrize("per_kpa", [0.1, 0.4, 0.9, 5.0])
def test_pressure_behind_the_throttle_is_what_the_engine_swallows(per_kpa: float) -> None:
    r = gas.ratio_behind(per_kpa, 250.0, 200.0, 310.0)
    assert gas.passage_flow(250.0, 200.0, 200.0 * r, 310.0) == pytest.approx(per_kpa * 200.0 * r, rel=1e-9)


@pytest.mark.parametrize("ratio", [1.2, 1.8, 2.5])
def test_compressor_head_against_real_air(ratio: float) -> None:
    """CoolProp's isentropic enthalpy rise; constant specific heat is within 0.5 %."""
    entropy = PropsSI("S", "P", 1e5, "T", 298.15, "Air")
    rise = PropsSI("H", "P", ratio * 1e5, "S", entropy, "Air") - PropsSI("H", "P", 1e5, "T", 298.15, "Air")
    assert gas.compressor_head(ratio, 298.15) == pytest.approx(rise / 1e3, rel=5e-3)
    assert gas.compressor_ratio(gas.compressor_head(ratio, 298.15), 298.15) == pytest.approx(ratio, rel=1e-12)


def test_turbine_work_of_a_worked_example() -> None:
    """106.9 g/s at 1073.15 K, η 0.68, η_m 0.97, ratio 1.532823: 8750.06 W, computed in plain Python."""
    power = 0.97 * 106.9 * 0.68 * gas.turbine_work(1.0 / 1.532823, 1073.15)
    assert power == pytest.approx(8750.06, rel=1e-4)
