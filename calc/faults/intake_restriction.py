"""Depression before the compressor is too high, or its hose folds.

What it does    The compressor starts from less: boost low, falling away on top.
Speaks for      depression above its limit at full load.
Against         depression within its limit at full load.
Can mislead     measured without load it proves nothing; a leak behind it, or too much boost, draws more air
                through and raises it with the square of the flow.
Proof           depression outside its limit.
Cure            renew the filter or the hose.
Next test       depression at full load.
"""

from calc.faults import effects
from calc.faults.model import Fault, both, drop_proves, flow_usual, high, low
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="intake_restriction",
    location="intake",
    shows={
        "intake_depression": high(0.93),
        "base_boost": low(0.35),
        "road_control_pressure": both(0.25, 0.02),
    },
    on_road=lambda kind: air_lost(hidden=0.15, used_up=0.75),
    # a quarter more flow adds 1.6 times by its square
    proof=drop_proves("intake_depression", usual=1.0, unknown=1.6, raised=1.6),
    likely_where=lambda findings, kind: flow_usual(findings),
    cleared_by=("intake_depression",),
    # lost before the compressor, it counts by the pressure ratio, about 2
    effect=effects.excess("intake_depression", -2.0),
)
