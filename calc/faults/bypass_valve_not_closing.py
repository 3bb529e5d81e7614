"""The compressor bypass valve lets charge air back to the inlet.

What it does    Air goes round the compressor instead of into the engine: boost low, often with a hiss.
Speaks for      the valve does not hold its pressure, or does not seat.
Against         it holds its limit.
Can mislead     it leaks from inside to inside: smoke does not show it, and the air mass sensor has counted
                it once only.
Proof           hold below its limit, or not seating.
Cure            renew the valve or its hose.
Next test       hand pump on the valve.
"""

from calc.faults.model import Fault, high, low, proved_by
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="bypass_valve_not_closing",
    location="charge_circuit",
    shows={"bypass_hold": low(0.93), "charge_leak_hole": high(0.25)},
    on_road=lambda kind: air_lost(hidden=0.20, used_up=0.45),
    proof=proved_by("bypass_hold"),
    cleared_by=("bypass_hold",),
)
