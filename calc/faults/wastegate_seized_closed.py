"""Rod, crank or valve of the wastegate does not move when driven.

What it does    Nothing lets exhaust past the turbine: boost rises until the control unit cuts.
Speaks for      the rod does not move when driven past its start limit.
Against         the rod moves freely and comes back.
Can mislead     the rod may move and the valve behind it not: only the look into the housing tells.
Proof           rod not moving when driven.
Cure            free or renew the linkage, or the turbine housing.
Next test       the actuator on the hand pump, rod watched.
"""

from calc.checks.evidence import Kind
from calc.faults import effects
from calc.faults.model import Fault, Picture, high, low, proved_by
from calc.faults.pictures import boost_rises


def on_road(kind: Kind) -> tuple[Picture, ...]:
    """A gate that never opens: the excess does not hide."""
    return boost_rises(hidden=0.02, used_up=0.95)


FAULT = Fault(
    name="wastegate_seized_closed",
    location="wastegate_valve",
    shows={
        "actuator_moves": low(0.93),
        "actuator_returns": low(0.10),
        "actuator_travel": low(0.85),
        "actuator_start": high(0.30),
        "actuator_full": high(0.30),
        "cooler_drop": high(0.20),
    },
    on_road=on_road,
    proof=proved_by("actuator_moves"),
    effect=effects.unbounded(1),
    devices=("wastegate",),
)
