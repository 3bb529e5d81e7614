"""Every test done is within limits, the road run included.

What it does    Nothing: real boost, sensor and control agree, and the complaint was not reproduced.
Speaks for      a road run in which gauge, sensor, specified and duty agree.
Against         anything outside its limit.
Can mislead     an intermittent fault that slept during the run; a limit that nobody typed.
Proof           none: it is a conclusion, not a part.
Cure            none. Say what was tested, and look at fuel, smoke limit and throttle.
Next test       the road run with gauges.
"""

from calc.faults.model import Fault

FAULT = Fault(name="no_fault_found", location="none")
