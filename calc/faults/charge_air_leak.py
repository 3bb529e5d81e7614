"""Air escapes between compressor and engine.

What it does    Takes boost away, most at high pressure; the loop answers with more duty until it has no
                more.
Speaks for      smoke at a joint, a hole from the decay above its limit, boost low with authority used up.
Against         a decay within its limit. Smoke not seen says little: some leaks open only hot, or at boost.
Can mislead     the engine's own rings and open valves leak too; a bypass valve leaks from inside to inside.
Proof           the hole from the decay outside its limit, or smoke seen where the decay does not clear it.
Cure            seal the joint or renew the hose, test again.
Next test       pressure decay straight after smoke.
"""

from calc.checks.evidence import Kind
from calc.faults import effects
from calc.faults.model import Fault, Findings, high, low, outside, smoke_shows_leak
from calc.faults.pictures import air_lost


def proof(findings: Findings, kind: Kind) -> tuple[str, ...]:
    """The hole outside its limit, or smoke that is no mere weep where no decay within clears it."""
    if outside(findings, "charge_leak_hole"):
        return ("charge_leak_hole",)
    return ("smoke_leak",) if smoke_shows_leak(findings) else ()


FAULT = Fault(
    name="charge_air_leak",
    location="charge_circuit",
    shows={
        "smoke_leak": low(0.85),  # some leaks open only hot or at boost
        "charge_leak_hole": high(0.93),
        "road_air_mass": high(0.40),  # only a leak of 5 to 10 % of the air shows
        "cooler_drop": high(0.20),  # what leaks behind the cooler goes through it as well
    },
    on_road=lambda kind: air_lost(hidden=0.25, used_up=0.55),
    proof=proof,
    cleared_by=("charge_leak_hole",),
    effect=effects.leak,
)
