"""The throttle or an intake flap holds the engine back.

What it does    Boost stands before the throttle, the engine does not get it.
Speaks for      throttle not fully open at full pedal.
Against         throttle seen fully open.
Can mislead     the control unit closes it on purpose while a limit is in force.
Proof           throttle not opening when driven.
Cure            free or renew it.
Next test       throttle at full pedal.
"""

from calc.faults.model import Fault, low, proved_by
from calc.faults.pictures import air_choked

FAULT = Fault(
    name="throttle_not_opening",
    location="intake",
    shows={"throttle_opens": low(0.93), "road_air_mass": low(0.50)},
    on_road=lambda kind: air_choked(hidden=0.10, used_up=0.20, limited=0.20),
    proof=proved_by("throttle_opens"),
    cleared_by=("throttle_opens",),
)
