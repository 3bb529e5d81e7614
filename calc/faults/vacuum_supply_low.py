"""Pump, check valve, reservoir or another consumer leaves too little vacuum.

What it does    The actuator cannot be pulled: weak low down, nearly right at the top.
Speaks for      supply vacuum shallower than its limit.
Against         supply vacuum within its limit.
Can mislead     height: a pump gives less vacuum where the air is thin.
Proof           supply outside its limit at the solenoid's port.
Cure            find the leak, renew pump, check valve or hose.
Next test       gauge on the supply at idle.
"""

from calc.faults.model import Fault, high, low, proved_by
from calc.faults.pictures import boost_falls

FAULT = Fault(
    name="vacuum_supply_low",
    location="control_pressure",
    shows={"vacuum_supply": high(0.95)},
    on_road=lambda kind: boost_falls(hidden=0.15, used_up=0.75, road_control_pressure=low(0.3)),
    proof=proved_by("vacuum_supply", "high"),
    cleared_by=("vacuum_supply",),
    actuators=("vacuum",),
)
