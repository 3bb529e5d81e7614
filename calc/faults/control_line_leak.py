"""Pressure is lost between solenoid and actuator.

What it does    The actuator gets less than it was given. Pressure-opened: boost rises. Vacuum: boost falls.
Speaks for      control pressure too low for its duty, a split or chafed hose.
Against         hoses sound on their right ports and a response within.
Can mislead     a diaphragm leak drains the same line: the pump on the nipple tells them apart.
Proof           a leak seen at the control hose.
Cure            renew the hose.
Next test       hoses by eye, then the bench sweep of the solenoid
"""

from calc.checks.evidence import Kind
from calc.faults.model import PNEUMATIC, Fault, Picture, both, high, low, named_by
from calc.faults.pictures import boost_falls, boost_rises


def on_road(kind: Kind) -> tuple[Picture, ...]:
    """Control pressure is short: a pressure gate opens late, a vacuum gate or vane is left open."""
    moved = boost_falls if kind.vacuum else boost_rises
    return moved(hidden=0.15, used_up=0.75, road_control_pressure=low(0.85))


FAULT = Fault(
    name="control_line_leak",
    location="control_pressure",
    shows={"control_hoses": low(0.85), "solenoid_response": both(0.45, 0.0), "base_boost": high(0.25)},
    on_road=on_road,
    proof=named_by("control_hoses", "leak"),
    words={"control_hoses": ("leak",), "solenoid_response": ("part", "venting")},
    cleared_by=("control_hoses",),
    actuators=PNEUMATIC,
)
