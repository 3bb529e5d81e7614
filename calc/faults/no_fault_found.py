"""Every test done is within limits, the road run included.

What it does    Nothing: real boost, sensor and control agree, and the complaint was not reproduced.
Speaks for      a road run in which gauge, sensor, specified and duty agree.
Against         anything outside its limit.
Can mislead     an intermittent fault that slept during the run; a limit that nobody typed.
Proof           none: it is a conclusion, not a part.
Cure            none. Say what was tested, and look at fuel, smoke limit and throttle.
Next test       the road run with gauges.
"""

from calc.checks.evidence import Kind
from calc.faults.model import Fault, Findings, within

WITHIN_WHERE_EXAMINED = (
    "road_tracking",
    "road_specified",
    "road_pedal",
    "rest_pedal",
    "road_air_mass",
    "rest_air_mass",
)


def nothing_found(findings: Findings, kind: Kind) -> bool:
    """The contract's rule: nothing outside, and enough examined to say so."""
    if any(found.outcome == "outside" for found in findings.values()):
        return False
    if not (within(findings, "road_real_boost") or within(findings, "road_peak")):
        return False
    if not _sensor_agrees(findings):
        return False
    if any(findings[check].outcome == "undecided" for check in WITHIN_WHERE_EXAMINED):
        return False
    if not (within(findings, "smoke_leak") or within(findings, "charge_leak_hole")):
        return False
    return kind.actuator == "electric" or all(
        findings[check].outcome in ("within", "undecided") for check in ("actuator_start", "actuator_hold")
    )


def _sensor_agrees(findings: Findings) -> bool:
    sensor = findings["road_sensor"]
    if not sensor.examined or sensor.value is None:
        return False
    return sensor.outcome == "within" or abs(sensor.value) <= (sensor.expanded_uncertainty or 0.0)


FAULT = Fault(name="no_fault_found", location="none", likely_where=nothing_found, likely_by_rule=True)
