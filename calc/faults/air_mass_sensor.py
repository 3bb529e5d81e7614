"""The air mass sensor reads less, or more, than the engine must swallow.

What it does    Low: load seems small, the specified value and fuel fall. High: the other way, with smoke or
                too rich a mixture.
Speaks for      air mass apart from what displacement, speed, pressure and temperature say.
Against         volumetric efficiency within at full load.
Can mislead     engine-air doubt is 5 to 10 %; unmetered air or recirculation make measured less, valve
                overlap more; 30 K in the wrong temperature is 10 %.
Proof           high: air mass above what the engine can swallow, with the charge circuit tight; or air
                counted at rest. Low: below what it must swallow, with recirculation seen to close, the
                throttle to open, and back pressure within.
Cure            clean or renew the sensor, mend the intake.
Next test       air mass against swallowed air in a log.
"""

from calc.checks.evidence import Kind
from calc.faults.model import Fault, Findings, both, high, low, outside, within
from calc.faults.pictures import steered

# each makes the engine swallow less by as much
CLEAR_LOW = ("egr_closes", "exhaust_back_pressure", "throttle_opens")
SPOIL_LOW = ("rest_temperatures", "cooler_drop")
BOOST_SHORT = (("road_real_boost", "low"), ("road_authority", "high"), ("road_correction", "high"))


def proof_high(findings: Findings, kind: Kind) -> tuple[str, ...]:
    """Air counted at rest; or too much on the road, once no leak can account for it."""
    if outside(findings, "rest_air_mass"):
        return ("rest_air_mass",)
    tight = within(findings, "charge_leak_hole") and not outside(findings, "rest_temperatures")
    if any(outside(findings, check, side) for check, side in BOOST_SHORT):  # some leaks open only at boost
        return ()
    return ("road_air_mass",) if tight and outside(findings, "road_air_mass", "high") else ()


def proof_low(findings: Findings, kind: Kind) -> tuple[str, ...]:
    """Too little on the road, once recirculation, throttle and exhaust cannot account for it."""
    if not within(findings, *CLEAR_LOW) or outside(findings, "sensor_feed"):
        return ()
    if any(outside(findings, check) for check in SPOIL_LOW):
        return ()
    return ("road_air_mass",) if outside(findings, "road_air_mass", "low") else ()


READS_LOW = Fault(
    name="air_mass_reads_low",
    location="input_signal",
    shows={},
    on_road=lambda kind: steered(
        {"road_air_mass": low(0.90), "road_specified": low(0.70), "road_request": low(0.85)},
        0.95,
        "load is counted too small",
    ),
    proof=proof_low,
    likely_where=lambda findings, kind: within(findings, "egr_closes", "throttle_opens"),
    cleared_by=("road_air_mass",),
)

READS_HIGH = Fault(
    name="air_mass_reads_high",
    location="input_signal",
    shows={"rest_air_mass": high(0.35)},
    on_road=lambda kind: steered(
        {"road_air_mass": high(0.90), "road_specified": both(0.45, 0.10), "road_request": low(0.40)},
        0.95,
        "load is counted too great",
    ),
    proof=proof_high,
    cleared_by=("road_air_mass",),
)
