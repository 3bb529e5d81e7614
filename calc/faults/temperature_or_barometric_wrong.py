"""An intake air, coolant or barometric signal wrongly limits the specified value.

What it does    The control unit protects an engine that is neither hot nor high up: specified below
                request.
Speaks for      a temperature apart from the air around the cold car.
Against         intake air and coolant near ambient on the cold car.
Can mislead     a car that is not cold: heat soak looks like a wrong sensor; a sensor stuck near the
                temperature of the day.
Proof           rest temperatures outside on the cold car.
Cure            renew the sensor or mend its wiring.
Next test       sensors at rest, car cold.
"""

from calc.faults.model import Fault, both, proved_by
from calc.faults.pictures import LIMITED, steered

FAULT = Fault(
    name="temperature_or_barometric_wrong",
    location="input_signal",
    shows={"rest_temperatures": both(0.38, 0.45)},
    on_road=lambda kind: steered(LIMITED, 0.9, "a limit acts that has no cause"),
    proof=proved_by("rest_temperatures", unless="sensor_feed"),  # a wrong feed makes every sensor on it lie
    cleared_by=("rest_temperatures",),
)
