"""Fuel, ignition, valve timing or compression: too little exhaust.

What it does    The turbine is fed by a weak engine: boost late and low.
Speaks for      low fuel pressure, misfire, uneven compression.
Against         fuel pressure, firing and compression in order; that leaves valve timing and the like.
Can mislead     it looks like a worn turbocharger.
Proof           one of them not in order.
Cure            mend the engine first.
Next test       engine health.
"""

from calc.faults.model import Fault, low, nowhere, proved_by
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="engine_output_low",
    location="elsewhere",
    shows={"engine_health": low(0.90)},
    on_road=lambda kind: air_lost(hidden=0.30, used_up=0.40),
    proof=proved_by("engine_health"),
    likely_where=nowhere,
)
