"""The cooler or a hose of the charge circuit is blocked, iced, delaminated or folding.

What it does    Boost is lost between compressor and engine, more the more air flows: it falls away on top.
Speaks for      a cooler drop above its limit at full load.
Against         a cooler drop within its limit at full load.
Can mislead     measured without load the drop proves nothing; too much boost or a leak behind the cooler
                drives more air through it, and the drop rises with the square of the flow.
Proof           cooler drop outside its limit.
Cure            clean or renew the cooler or the hose.
Next test       cooler drop with one gauge moved across.
"""

from math import inf

from calc.faults import effects
from calc.faults.model import Fault, both, drop_proves, flow_usual, high, low
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="charge_air_restriction",
    location="charge_circuit",
    shows={"cooler_drop": high(0.93), "base_boost": low(0.70), "road_control_pressure": both(0.05, 0.30)},
    on_road=lambda kind: air_lost(hidden=0.25, used_up=0.55),
    # a warm day and a full pull add up to two fifths: the simulated sound cars and those that boost too hard
    proof=drop_proves("cooler_drop", usual=1.4, unknown=2.5, raised=inf),
    likely_where=lambda findings, kind: flow_usual(findings),
    cleared_by=("cooler_drop",),
    effect=effects.excess("cooler_drop", -1.0),
)
