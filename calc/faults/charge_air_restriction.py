"""The cooler or a hose of the charge circuit is blocked, iced, delaminated or folding.

What it does    Boost is lost between compressor and engine, more the more air flows: it falls away on top.
Speaks for      a cooler drop above its limit at full load.
Against         a cooler drop within its limit at full load.
Can mislead     measured without load the drop proves nothing; too much boost or a leak behind the cooler
                drives more air through it, and the drop rises with the square of the flow.
Proof           cooler drop outside its limit.
Cure            clean or renew the cooler or the hose.
Next test       cooler drop with one gauge moved across.
"""

from calc.checks.evidence import Kind
from calc.faults import effects
from calc.faults.model import Fault, Findings, both, flow_raised, high, low, outside
from calc.faults.pictures import air_lost

BEYOND = 1.2  # of the limit: so much a warm day and a full pull may add; common practice, no source


def proof(findings: Findings, kind: Kind) -> tuple[str, ...]:
    """The drop outside, while no more air flows than the limit was made for: no leak, no excess of boost."""
    if flow_raised(findings):
        return ()
    drop = findings["cooler_drop"]
    if not outside(findings, "cooler_drop", "high") or drop.value is None or drop.limit is None:
        return ()
    return ("cooler_drop",) if drop.value > BEYOND * (drop.limit.high or 0.0) else ()


FAULT = Fault(
    name="charge_air_restriction",
    location="charge_circuit",
    shows={"cooler_drop": high(0.93), "base_boost": low(0.70), "road_control_pressure": both(0.05, 0.30)},
    on_road=lambda kind: air_lost(hidden=0.25, used_up=0.55),
    proof=proof,
    likely_where=lambda findings, kind: not flow_raised(findings),
    cleared_by=("cooler_drop",),
    effect=effects.excess("cooler_drop", -1.0),
)
