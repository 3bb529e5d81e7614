"""A limit rightly lowers the specified value: heat, knock, gearbox, a stored fault, height.

What it does    Specified stays below request at full pedal, and everything after it agrees.
Speaks for      specified below request, or dropping to a plateau at full pedal.
Against         specified follows the request to its peak.
Can mislead     a car in reduced-power mode aims low because of a stored fault: clear and run again before
                anything is blamed.
Proof           none by a direct measurement: the limit has a cause of its own.
Cure            find and mend what calls for the limit.
Next test       read codes, clear them, run again.
"""

from calc.faults.model import Fault, low
from calc.faults.pictures import LIMITED, steered

FAULT = Fault(
    name="limit_in_force",
    location="control_unit",
    shows={},
    on_road=lambda kind: steered(
        {**LIMITED, "road_reduced_power": low(0.15)}, 0.88, "the control unit aims below what is asked"
    ),
)
