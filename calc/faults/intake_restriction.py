"""Depression before the compressor is too high, or its hose folds.

What it does    The compressor starts from less: boost low, falling away on top.
Speaks for      depression above its limit at full load.
Against         depression within its limit at full load.
Can mislead     measured without load it proves nothing; a leak behind it, or too much boost, draws more air
                through and raises it with the square of the flow.
Proof           depression outside its limit.
Cure            renew the filter or the hose.
Next test       depression at full load.
"""

from calc.checks.evidence import Kind
from calc.faults import effects
from calc.faults.model import Fault, Findings, both, flow_raised, high, low, outside
from calc.faults.pictures import air_lost

BEYOND = 1.6  # of the limit: a quarter more flow adds so much, by its square


def proof(findings: Findings, kind: Kind) -> tuple[str, ...]:
    """The depression outside; where a leak or too much boost draws more air through, well outside."""
    depth = findings["intake_depression"]
    if not outside(findings, "intake_depression", "high") or depth.value is None or depth.limit is None:
        return ()
    most = (depth.limit.high or 0.0) * (BEYOND if flow_raised(findings) else 1.0)
    return ("intake_depression",) if depth.value > most else ()


FAULT = Fault(
    name="intake_restriction",
    location="intake",
    shows={
        "intake_depression": high(0.93),
        "base_boost": low(0.35),
        "road_control_pressure": both(0.25, 0.02),
    },
    on_road=lambda kind: air_lost(hidden=0.15, used_up=0.75),
    proof=proof,
    likely_where=lambda findings, kind: not flow_raised(findings),
    cleared_by=("intake_depression",),
    # lost before the compressor, it counts by the pressure ratio, about 2
    effect=effects.excess("intake_depression", -2.0),
)
