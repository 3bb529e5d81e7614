"""Control pressure arrives at the actuator late or not at all.

What it does    Pressure-opened: the gate opens late or never, boost rises. Vacuum: boost falls.
Speaks for      control pressure too low at the actuator, a kinked or plugged hose.
Against         hoses sound on their right ports and a response within.
Can mislead     a gauge at the port of the solenoid reads right while the actuator gets nothing: read at the
                actuator's end.
Proof           a blockage seen at the control hose.
Cure            clear or renew the hose.
Next test       hoses by eye, then the bench sweep of the solenoid
"""

from calc.checks.evidence import Kind
from calc.faults.model import PNEUMATIC, Fault, Picture, both, high, low, named_by
from calc.faults.pictures import boost_falls, boost_rises


def on_road(kind: Kind) -> tuple[Picture, ...]:
    """Nothing arrives: a pressure gate stays shut, a vacuum gate or vane stays open."""
    moved = boost_falls if kind.vacuum else boost_rises
    return moved(hidden=0.15, used_up=0.75, road_control_pressure=low(0.85))


FAULT = Fault(
    name="control_line_blocked",
    location="control_pressure",
    shows={
        "control_hoses": low(0.80),
        "solenoid_response": both(0.75, 0.0),
        "cooler_drop": high(0.20),
        "base_boost": high(0.40),
    },
    on_road=on_road,
    proof=named_by("control_hoses", "blocked"),
    words={"control_hoses": ("blocked",), "solenoid_response": ("venting", "part")},
    cleared_by=("control_hoses",),
    actuators=PNEUMATIC,
)
