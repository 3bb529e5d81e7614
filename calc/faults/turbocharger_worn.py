"""Wheels or bearings of the turbocharger are damaged.

What it does    The compressor no longer makes the pressure: boost late and low, often with a whine or oil.
Speaks for      wheel damage, a shaft that does not spin free, play outside its limit.
Against         wheels whole, shaft free, play within.
Can mislead     it is the part most often sold wrongly, because it is what remains: weak engine, exhaust
                leak, bypass valve and recirculation look alike.
Proof           its wheels or its play, seen and measured.
Cure            renew or overhaul, and find what killed it.
Next test       look from the inlet side.
"""

from calc.faults.model import Fault, any_of, high, low, nowhere
from calc.faults.pictures import air_lost

FAULT = Fault(
    name="turbocharger_worn",
    location="turbocharger",
    # one of the three in most, none in a seventh: the turbine's side is not seen from here
    shows={"turbo_wheels": low(0.60), "turbo_radial_play": high(0.45), "turbo_axial_play": high(0.35)},
    on_road=lambda kind: air_lost(hidden=0.2, used_up=0.7),
    proof=any_of("turbo_wheels", "turbo_radial_play", "turbo_axial_play"),
    likely_where=nowhere,
)
