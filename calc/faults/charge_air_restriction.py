"""The cooler or a hose of the charge circuit is blocked, iced, delaminated or folding.

What it does    Boost is lost between compressor and engine, more the more air flows: it falls away on top.
Speaks for      a cooler drop above its limit at full load.
Against         a cooler drop within its limit at full load.
Can mislead     measured without load the drop proves nothing.
Proof           cooler drop outside its limit.
Cure            clean or renew the cooler or the hose.
Next test       cooler drop with one gauge moved across.
"""

from calc.faults import effects
from calc.faults.model import Fault, high, proved_by
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="charge_air_restriction",
    location="charge_circuit",
    shows={"cooler_drop": high(0.93)},
    on_road=lambda kind: air_lost(),
    proof=proved_by("cooler_drop", "high"),
    cleared_by=("cooler_drop",),
    effect=effects.excess("cooler_drop", -1.0),
)
