"""Back pressure behind the turbine is too high.

What it does    The turbine has less to work with: boost late and falling away on top.
Speaks for      back pressure above its limit at full load.
Against         back pressure within its limit.
Can mislead     a full particulate filter is a cause with a cause of its own.
Proof           back pressure outside its limit.
Cure            clean or renew what is blocked, and find why.
Next test       back pressure at full load.
"""

from calc.faults.model import Fault, high, low, proved_by
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="exhaust_restriction",
    location="exhaust",
    shows={"exhaust_back_pressure": high(0.93), "road_air_mass": low(0.40)},
    on_road=lambda kind: air_lost(hidden=0.25, used_up=0.40),
    proof=proved_by("exhaust_back_pressure", "high"),
    cleared_by=("exhaust_back_pressure",),
)
