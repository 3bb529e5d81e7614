"""The solenoid no longer answers its duty: it passes all, or vents all.

What it does    Passes all: pressure-opened, base boost and no more; vacuum, overboost. Vents all: the other
                way round.
Speaks for      control pressure that follows the supply, or stays at nothing, whatever the duty.
Against         a bench sweep that follows its duty.
Can mislead     a dead circuit gives the same flat sweep: coil, supply and ground are looked at first;
                swapped hoses make it too.
Proof           a flat bench sweep with coil, supply and ground within, or driven by the bench, and hoses
                looked at and sound.
Cure            renew the solenoid.
Next test       solenoid electrical, then its bench sweep.
"""

from calc.checks.evidence import Kind
from calc.faults.model import PNEUMATIC, Fault, Findings, Picture, both, high, low, outside, within
from calc.faults.pictures import BASE_BOOST, HIGH_USED_UP


def on_road(passes: bool, kind: Kind) -> tuple[Picture, ...]:
    """Passing all holds a pressure gate open and pulls a vacuum one shut."""
    falls = passes != kind.vacuum
    control = high(0.93) if passes else low(0.93)
    picture = BASE_BOOST if falls else HIGH_USED_UP
    return (
        Picture(0.92, {**picture, "road_control_pressure": control}, "the loop pulls a loose lever"),
        Picture(0.08, {"road_control_pressure": control}, "it sticks now and then"),
    )


def proof(stays: str, findings: Findings) -> tuple[str, ...]:
    """A flat sweep whose drive and hoses are known to be good."""
    sweep = findings["solenoid_response"]
    if not outside(findings, "solenoid_response") or sweep.facts.get("stays") != stays:
        return ()
    driven = sweep.facts.get("by_bench") or within(
        findings, "solenoid_coil", "solenoid_supply", "solenoid_ground"
    )
    if not driven or not within(findings, "control_hoses"):
        return ()
    return ("solenoid_response",)


PASSES_ALL = Fault(
    name="solenoid_passes_all",
    location="control_pressure",
    shows={"solenoid_response": both(0.85, 0.0)},
    words={"solenoid_response": ("passing",)},
    on_road=lambda kind: on_road(True, kind),
    proof=lambda findings, kind: proof("passing", findings),
    cleared_by=("solenoid_response",),
    actuators=PNEUMATIC,
)

VENTS_ALL = Fault(
    name="solenoid_vents_all",
    location="control_pressure",
    shows={"solenoid_response": both(0.85, 0.0), "cooler_drop": high(0.20), "base_boost": high(0.50)},
    words={"solenoid_response": ("venting",)},
    on_road=lambda kind: on_road(False, kind),
    proof=lambda findings, kind: proof("venting", findings),
    cleared_by=("solenoid_response",),
    actuators=PNEUMATIC,
)
