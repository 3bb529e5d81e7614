"""The actuator does not hold its control pressure.

What it does    The leak drains the control line. Pressure-opened: the gate opens late, boost rises. Vacuum:
                boost falls.
Speaks for      pressure falls away in the minute's hold.
Against         the hold is within its limit.
Can mislead     a leaking T-piece or pump looks the same: pinch the hose at the nipple and repeat; a pinhole
                may not show on the road.
Proof           hold loss outside its limit, on the actuator's own nipple.
Cure            renew the actuator.
Next test       the minute's hold.
"""

from calc.checks.evidence import Kind
from calc.faults import effects
from calc.faults.model import PNEUMATIC, Fault, Picture, both, high, proved_by
from calc.faults.pictures import boost_falls, boost_rises


def on_road(kind: Kind) -> tuple[Picture, ...]:
    """It drains the line, so the control pressure is short; a pinhole may not show there."""
    moved = boost_falls if kind.vacuum else boost_rises
    return moved(hidden=0.25, used_up=0.6, road_control_pressure=both(0.55, 0.01))


FAULT = Fault(
    name="diaphragm_leak",
    location="actuator",
    shows={
        "actuator_hold": high(0.95),
        "actuator_start": high(0.10),
        "cooler_drop": high(0.20),
        "base_boost": high(0.40),
        "solenoid_response": both(0.15, 0.0),
    },
    on_road=on_road,
    proof=proved_by("actuator_hold", "high"),
    cleared_by=("actuator_hold",),
    effect=effects.diaphragm,
    actuators=PNEUMATIC,
)
