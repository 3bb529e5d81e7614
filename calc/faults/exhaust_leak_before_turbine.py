"""Gas escapes before it has done its work in the turbine.

What it does    The turbine gets less: boost late and low, worst low down.
Speaks for      soot or hiss at the joints before the turbine.
Against         none seen, cold and warm.
Can mislead     a crack may open only hot.
Proof           soot or hiss seen.
Cure            seal or renew.
Next test       look and listen, cold start.
"""

from calc.faults.model import Fault, low, proved_by
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="exhaust_leak_before_turbine",
    location="exhaust",
    shows={"exhaust_leak": low(0.90)},
    on_road=lambda kind: air_lost(hidden=0.25, used_up=0.45),
    proof=proved_by("exhaust_leak"),
    cleared_by=("exhaust_leak",),
)
