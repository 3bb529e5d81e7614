"""Our formulas beside general-purpose libraries, over ranges and not only at points."""

import math

import ambiance
import fluids
import fluids.compressible
import pint
import pytest
import uncertainties
import uncertainties.umath
from CoolProp import CoolProp as Cool
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, optimize, special, stats

from calc.physics import (
    air_properties,
    atmosphere,
    compressor,
    engine_air,
    hose,
    leak,
    orifice,
    solenoid,
    units,
)
from calc.signals.breakpoint import fit_sweep
from calc.signals.regression import line_fit
from calc.uncertainty import decision
from calc.uncertainty.propagation import propagate
from tests.published import reference

SEEDED = settings(max_examples=40, deadline=None, derandomize=True)

P0, R = 101_325.0, 287.05287
UNITS = {"bar": "bar", "mbar": "mbar", "kPa": "kPa", "psi": "psi", "atm": "atm", "torr": "torr",
         "mmHg": "mmHg", "inHg": "inHg", "kgf/cm2": "kgf/cm**2"}  # fmt: skip
REGISTRY = pint.UnitRegistry()


@SEEDED
@given(st.floats(-500.0, 10_900.0))
def test_standard_atmosphere_is_ambiance(height: float) -> None:
    ours = atmosphere.standard_pressure(reference.geopotential_height(height))
    assert ours == pytest.approx(float(ambiance.Atmosphere(height).pressure[0]), abs=1.0)


@SEEDED
@given(st.floats(0.0, 10_900.0))
def test_standard_atmosphere_is_that_of_fluids(height: float) -> None:
    theirs = fluids.ATMOSPHERE_1976(height)
    geopotential = reference.geopotential_height(height)
    assert atmosphere.standard_pressure(geopotential) == pytest.approx(theirs.P, abs=1.0)
    assert atmosphere.standard_temperature(geopotential) == pytest.approx(theirs.T, abs=0.001)


@SEEDED
@given(st.floats(-1.0e4, 1.0e4), st.sampled_from(sorted(UNITS)), st.sampled_from(sorted(UNITS)))
def test_units_are_those_of_pint(value: float, unit: str, to: str) -> None:
    theirs = REGISTRY.Quantity(value, UNITS[unit]).to(UNITS[to]).magnitude
    assert units.convert(value, unit, to) == pytest.approx(theirs, rel=1e-6, abs=1e-12)


@SEEDED
@given(st.floats(1.05, 1.66))
def test_critical_ratio_is_that_of_fluids(gamma: float) -> None:
    theirs = fluids.compressible.P_critical_flow(1.0, gamma)
    assert orifice.critical_ratio(gamma) == pytest.approx(theirs, rel=1e-9)


@SEEDED
@given(st.floats(0.05, 0.999))
def test_area_over_throat_is_that_of_naca_1135(mach: float) -> None:
    """A/A* by equation 80 for a heat ratio of 1.4, p/p0 by equation 44."""
    ours = orifice.flow_function(0.0) / orifice.flow_function((1.0 + 0.2 * mach**2) ** -3.5)
    assert ours == pytest.approx(((1.0 + 0.2 * mach**2) / 1.2) ** 3 / mach, rel=1e-7)


@SEEDED
@given(st.floats(1.05e5, 4.0e5), st.floats(263.15, 330.0))
def test_mass_flux_is_that_of_real_air(p1: float, T1: float) -> None:
    """Isentropic from rest to the outside, or to the pressure of the greatest flux; within 0.3 %."""
    entropy, rest = (Cool.PropsSI(key, "P", p1, "T", T1, "Air") for key in ("S", "H"))

    def flux(p: float) -> float:
        speed = math.sqrt(2.0 * max(0.0, rest - Cool.PropsSI("H", "P", p, "S", entropy, "Air")))
        return speed * float(Cool.PropsSI("D", "P", p, "S", entropy, "Air"))

    choked = optimize.minimize_scalar(lambda p: -flux(p), bounds=(0.45 * p1, 0.6 * p1), method="bounded").x
    assert orifice.mass_flow(1.0, 1.0, p1, P0, T1) == pytest.approx(flux(max(P0, choked)), rel=3e-3)


@SEEDED
@given(st.floats(80_000.0, 350_000.0), st.floats(243.15, 420.0))
def test_density_and_sound_are_those_of_real_air(p: float, T: float) -> None:
    assert engine_air.air_density(p, T) == pytest.approx(Cool.PropsSI("D", "P", p, "T", T, "Air"), rel=5e-3)
    theirs = Cool.PropsSI("A", "P", p, "T", T, "Air")
    assert air_properties.speed_of_sound(T) == pytest.approx(theirs, rel=5e-3)


@SEEDED
@given(st.floats(253.15, 373.15))
def test_viscosity_is_that_of_real_air(T: float) -> None:
    theirs = Cool.PropsSI("V", "P", P0, "T", T, "Air")
    assert air_properties.viscosity(T) == pytest.approx(theirs, rel=0.01)


@SEEDED
@given(st.floats(275.0, 313.0), st.floats(0.05, 0.95), st.floats(80_000.0, 104_000.0))
def test_humid_air_is_that_of_coolprop(T: float, humidity: float, p: float) -> None:
    vapour = engine_air.vapour_pressure(humidity, T)
    theirs = Cool.HAPropsSI("W", "T", T, "P", p, "R", humidity)
    assert engine_air.humidity_ratio(p, vapour) == pytest.approx(theirs, rel=0.01)
    density = (1.0 + theirs) / Cool.HAPropsSI("V", "T", T, "P", p, "R", humidity)
    assert engine_air.humid_air_density(p, T, vapour) == pytest.approx(density, rel=1.5e-3)


@SEEDED
@given(st.floats(1.2, 3.0), st.floats(273.15, 313.15), st.floats(0.55, 0.8))
def test_compressor_is_that_of_real_air(ratio: float, T1: float, efficiency: float) -> None:
    entropy, h1 = (Cool.PropsSI(key, "P", 1.0e5, "T", T1, "Air") for key in ("S", "H"))
    ideal = Cool.PropsSI("H", "P", 1.0e5 * ratio, "S", entropy, "Air")
    theirs = Cool.PropsSI("T", "P", 1.0e5 * ratio, "H", h1 + (ideal - h1) / efficiency, "Air")
    assert compressor.isentropic_efficiency(ratio, T1, theirs) == pytest.approx(efficiency, rel=1.2e-2)


@SEEDED
@given(st.floats(1.0, 20.0), st.floats(0.2, 8.0), st.floats(0.05, 2.0), st.floats(0.05, 0.95))
def test_decay_is_the_integral_of_the_plain_equation(
    litres: float, d_mm: float, bar: float, left: float
) -> None:
    start, end = P0 + 1e5 * bar, P0 + 1e5 * bar * left
    cd_area, volume = 0.62 * orifice.hole_area(d_mm / 1e3), litres / 1e3

    def seconds_per_pascal(p: float) -> float:
        return volume / (R * 293.15) / orifice.mass_flow(0.62, cd_area / 0.62, p, P0, 293.15)

    knee = [P0 / orifice.critical_ratio()]
    theirs = integrate.quad(seconds_per_pascal, end, start, points=knee if end < knee[0] < start else None)[0]
    ours = leak.decay_time(volume, cd_area, start, end, P0, 293.15)
    assert ours == pytest.approx(theirs, rel=1e-6)
    back = leak.area_from_decay(volume, 0.62, start, end, ours, P0, 293.15)
    assert back == pytest.approx(cd_area / 0.62, rel=1e-9)


@SEEDED
@given(st.floats(0.05, 6.0), st.floats(0.2, 2.5), st.floats(80_000.0, 104_000.0))
def test_two_orifices_are_the_root_of_continuity(ratio: float, bar: float, ambient: float) -> None:
    supply = ambient + 1e5 * bar

    def surplus(p: float) -> float:
        coming = orifice.mass_flow(1.0, 1e-6, supply, p, 293.15)
        return coming - ratio * orifice.mass_flow(1.0, 1e-6, p, ambient, 293.15)

    theirs = optimize.brentq(surplus, ambient, supply, xtol=1e-6)
    assert solenoid.two_orifice_pressure(ratio, supply, ambient) == pytest.approx(theirs, abs=0.5)


@SEEDED
@given(st.floats(0.5, 5.0), st.floats(0.002, 0.008), st.floats(1e-6, 5e-5))
def test_resonance_is_the_first_root(length: float, bore: float, volume: float) -> None:
    sound, section = air_properties.speed_of_sound(293.15), orifice.hole_area(bore)

    def miss(f: float) -> float:
        k = 2.0 * math.pi * f / sound
        return k * volume * math.sin(k * length) - section * math.cos(k * length)

    theirs = optimize.brentq(miss, 1e-9, sound / (4.0 * length))
    assert hose.resonance_frequency(length, bore, volume, 293.15) == pytest.approx(theirs, rel=1e-6)


@SEEDED
@given(st.floats(-50.0, 50.0), st.floats(0.01, 20.0), st.floats(-60.0, 0.0), st.floats(0.1, 60.0))
def test_chances_are_those_of_the_normal_distribution(x: float, u: float, low: float, width: float) -> None:
    seen = decision.chances(x, u, decision.Limit(low, low + width))
    normal = stats.norm(x, u)
    assert seen.low == pytest.approx(normal.cdf(low), abs=1e-12)
    assert seen.high == pytest.approx(normal.sf(low + width), abs=1e-12)
    assert seen.low + seen.inside + seen.high == pytest.approx(1.0, abs=1e-12)
    assert decision.normal_cdf((low - x) / u) == pytest.approx(special.ndtr((low - x) / u), abs=1e-12)


@SEEDED
@given(
    st.floats(0.02, 0.2), st.floats(1e-4, 3e-3), st.floats(1.2e5, 2.8e5), st.floats(270.0, 340.0),
    st.floats(0.002, 0.03), st.floats(0.001, 0.03), st.floats(0.5, 5.0),
)  # fmt: skip
def test_propagated_doubt_is_that_of_uncertainties(
    m: float, litres: float, p: float, T: float, um: float, up: float, uT: float
) -> None:
    values, doubts = {"m": m, "p": p, "T": T}, {"m": m * um, "p": p * up, "T": uT}
    theirs = uncertainties.ufloat(m, m * um) * 60.0 * 2.0 * R * uncertainties.ufloat(T, uT)
    theirs /= litres * 3000.0 * uncertainties.ufloat(p, p * up)

    def efficiency(m: float, p: float, T: float) -> float:
        return engine_air.volumetric_efficiency(m, litres, 3000.0, p, T)

    assert propagate(efficiency, values, doubts) == pytest.approx(theirs.std_dev, rel=2e-3)


@SEEDED
@given(st.lists(st.tuples(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3)), min_size=4, max_size=40))
def test_lines_are_those_of_scipy(points: list[tuple[float, float]]) -> None:
    x, y = ([round(pair[place], 3) for pair in points] for place in (0, 1))
    if max(x) - min(x) < 1.0 or len(set(y)) < 3:
        return
    theirs, ours = stats.linregress(x, y), line_fit(x, y)
    assert ours.slope == pytest.approx(theirs.slope, rel=1e-6, abs=1e-9)
    assert ours.intercept == pytest.approx(theirs.intercept, rel=1e-6, abs=1e-6)
    assert ours.se_slope == pytest.approx(theirs.stderr, rel=1e-4, abs=1e-6)


@SEEDED
@given(st.floats(35.0, 110.0), st.floats(0.06, 0.2), st.integers(0, 10_000))
def test_first_movement_is_the_nonlinear_fit_of_scipy(start: float, rate: float, seed: int) -> None:
    noise = stats.norm(0.0, 0.05).rvs(size=17, random_state=seed)
    p = [10.0 * step for step in range(17)]
    x = [rate * max(0.0, at - start) + miss for at, miss in zip(p, noise, strict=True)]

    def ramp(at: float, a: float, b: float, c: float) -> float:
        return a + b * (abs(at - c) + at - c) / 2.0

    ours = fit_sweep(p, x)
    found, spread = optimize.curve_fit(ramp, p, x, p0=(0.0, rate, start))
    theirs_s = math.sqrt(math.fsum((ramp(a, *found) - b) ** 2 for a, b in zip(p, x, strict=True)) / 14)
    assert ours.residual_s <= theirs_s * (1.0 + 1e-6)
    corner = abs(found[2] / 10.0 - round(found[2] / 10.0)) < 0.05  # at a reading a slope says nothing
    same = ours.full_travel is None and abs(ours.first_movement - found[2]) < 1e-3
    if same and not corner:  # where they found the same minimum
        assert ours.se_first_movement == pytest.approx(math.sqrt(spread[2][2]), rel=0.05)
