"""Control hoses sit on the wrong ports; each pair has its own trace.

What it does    Supply and vent changed: duty works the wrong way round, or changes nothing.
Speaks for      control pressure wrong for its duty, hoses seen on the wrong ports.
Against         hoses seen on their right ports.
Can mislead     it looks like a stuck solenoid: look at the ports before a part is bought.
Proof           hoses on wrong ports, seen.
Cure            put the hoses on their right ports.
Next test       hoses by eye.
"""

from calc.checks.evidence import Kind
from calc.faults.model import PNEUMATIC, Fault, Picture, both, high, low, named_by
from calc.faults.pictures import BASE_BOOST, HIGH_USED_UP


def on_road(kind: Kind) -> tuple[Picture, ...]:
    """One pair passes all, another vents all; which way boost goes then depends on the actuator."""
    passing, venting = (HIGH_USED_UP, BASE_BOOST) if kind.vacuum else (BASE_BOOST, HIGH_USED_UP)
    return (
        Picture(0.50, {**passing, "road_control_pressure": high(0.85)}, "supply always reaches the actuator"),
        Picture(0.45, {**venting, "road_control_pressure": low(0.85)}, "the actuator is always vented"),
        Picture(0.05, {}, "too small to show in a pull"),
    )


FAULT = Fault(
    name="control_hoses_swapped",
    location="control_pressure",
    shows={"control_hoses": low(0.95), "solenoid_response": both(0.85, 0.0), "base_boost": high(0.20)},
    words={"control_hoses": ("swapped",)},
    on_road=on_road,
    proof=named_by("control_hoses", "swapped"),
    cleared_by=("control_hoses",),
    actuators=PNEUMATIC,
)
