"""Exhaust recirculation takes gas from the turbine and air from the engine.

What it does    Boost late and low, air mass less than swallowed.
Speaks for      the valve does not close.
Against         the valve seen closing.
Can mislead     a valve may close cold and hang hot.
Proof           valve not closing.
Cure            clean or renew the valve.
Next test       recirculation valve driven and watched.
"""

from calc.faults.model import Fault, low, proved_by
from calc.faults.pictures import air_choked

FAULT = Fault(
    name="egr_not_closing",
    location="exhaust",
    shows={"egr_closes": low(0.92), "road_air_mass": low(0.60)},
    on_road=lambda kind: air_choked(hidden=0.15, used_up=0.30, limited=0.20),
    proof=proved_by("egr_closes"),
    cleared_by=("egr_closes",),
)
