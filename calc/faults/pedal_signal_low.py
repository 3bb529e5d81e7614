"""The pedal does not ask for full load.

What it does    Request and specified stay low; everything after them agrees.
Speaks for      pedal signal short of full with the pedal floored.
Against         pedal signal full at rest and on the road.
Can mislead     a floor mat, or a driver who did not floor it: look at rest.
Proof           floored signal outside at rest.
Cure            mend what stops the pedal, or renew its sensor.
Next test       sensors at rest.
"""

from calc.faults.model import Fault, low, proved_by
from calc.faults.pictures import AIMS_LOW, steered

FAULT = Fault(
    name="pedal_signal_low",
    location="input_signal",
    shows={"rest_pedal": low(0.92)},
    on_road=lambda kind: steered({**AIMS_LOW, "road_pedal": low(0.92)}, 0.97, "full load is never asked for"),
    proof=proved_by("rest_pedal", "low", unless="sensor_feed"),  # a wrong feed makes every sensor on it lie
    cleared_by=("rest_pedal",),
)
