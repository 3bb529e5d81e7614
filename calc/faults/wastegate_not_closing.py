"""The wastegate's valve is bent, cracked or held off its seat.

What it does    Exhaust passes the turbine at all times: boost comes late and stays low, worst low down.
Speaks for      the valve seen off its seat or damaged, the rod not coming back to its stop.
Against         the valve seen seated and whole.
Can mislead     on the hand pump a gate held off its seat looks like one that opens late.
Proof           seen with the exhaust off or by borescope.
Cure            renew the valve or the housing.
Next test       wastegate inspection, last of the cheap tests.
"""

from calc.faults.model import Fault, high, low, proved_by
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="wastegate_not_closing",
    location="wastegate_valve",
    shows={
        "wastegate_seat": low(0.95),
        "actuator_returns": low(0.30),
        "actuator_start": high(0.20),  # it is already lifted, so first movement is seen late
        "actuator_travel": low(0.20),
        "base_boost": low(0.50),
    },
    on_road=lambda kind: air_lost(hidden=0.20, used_up=0.60),
    proof=proved_by("wastegate_seat"),
    cleared_by=("wastegate_seat",),
    devices=("wastegate",),
)
