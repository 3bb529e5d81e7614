"""Variable geometry does not follow its rod.

What it does    Vanes hang open or shut: weak low down, or overboost on the way up.
Speaks for      wide hysteresis in the sweep, a rod that does not return.
Against         hysteresis within its limit.
Can mislead     the rod may move while the vanes behind it do not.
Proof           hysteresis outside, or the rod stuck.
Cure            clean or renew the vane carrier; the minimum-flow stop is never adjusted.
Next test       a sweep up and down.
"""

from calc.faults.model import Fault, Picture, any_of, high, low
from calc.faults.pictures import HIGH_USED_UP, LOW_USED_UP

ON_ROAD = (
    Picture(0.45, LOW_USED_UP, "vanes hang open"),
    Picture(0.40, HIGH_USED_UP, "vanes hang shut"),
    Picture(0.15, {"road_hunting": high(0.5)}, "they stick now and then"),
)

FAULT = Fault(
    name="vanes_sticking",
    location="turbocharger",
    shows={"actuator_hysteresis": high(0.60), "actuator_moves": low(0.25), "actuator_returns": low(0.30)},
    on_road=lambda kind: ON_ROAD,
    proof=any_of("actuator_hysteresis", "actuator_moves"),
    devices=("variable_geometry",),
)
