"""The actuator's spring has lost its rate: it is the rate, not the preload, that is wrong.

What it does    Boost falls away towards the top, since the rod goes on too far for the pressure.
Speaks for      travel per pressure above its limit, full travel early while first movement is not.
Against         a rate within its limit.
Can mislead     two pressures alone cannot tell it from preload: the rate wants a sweep.
Proof           rate outside its limit in a sweep.
Cure            renew the actuator: turns on the rod do not cure a spring.
Next test       a sweep on the hand pump.
"""

from calc.checks.evidence import Kind
from calc.faults.actuator_preload import span_changed
from calc.faults.model import PNEUMATIC, Fault, Findings, Picture, both, low, proved_by
from calc.faults.pictures import boost_falls, boost_rises


def on_road(kind: Kind) -> tuple[Picture, ...]:
    """Less spring: a pressure gate opens too far, a vacuum gate or vane closes too far."""
    return boost_rises(hidden=0.3, used_up=0.6) if kind.vacuum else boost_falls(hidden=0.3, used_up=0.6)


def both_moved_alike(findings: Findings, kind: Kind) -> bool:
    """First movement outside and full travel off by no more: a preload, not a rate."""
    start, full = findings["actuator_start"], findings["actuator_full"]
    return start.outcome == "outside" and full.value is not None and not span_changed(start, full)


FAULT = Fault(
    name="spring_weak",
    location="actuator",
    shows={
        "actuator_rate": both(0.04, 0.90),  # a wrong, harder spring is the rarer case
        "actuator_start": low(0.45),
        "actuator_full": low(0.85),
        "base_boost": low(0.6),
    },
    on_road=on_road,
    proof=proved_by("actuator_rate"),
    cleared_by=("actuator_rate",),
    against_where=both_moved_alike,
    actuators=PNEUMATIC,
)
