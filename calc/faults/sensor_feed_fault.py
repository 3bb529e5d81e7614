"""The reference supply or the ground that the sensors share is off.

What it does    Every ratiometric sensor on it lies together.
Speaks for      reference supply or ground offset outside.
Against         both within.
Can mislead     one shorted sensor pulls the feed down: unplug them one by one.
Proof           feed outside its range.
Cure            mend the feed.
Next test       reference supply and ground at the sensor's plug.
"""

from calc.faults.model import Fault, Picture, both, low, proved_by
from calc.faults.pictures import SENSOR_HIGH, SENSOR_LOW

ON_ROAD = (
    Picture(0.55, SENSOR_HIGH, "a raised ground lifts the signal"),
    Picture(0.35, SENSOR_LOW, "a low reference drops it"),
    Picture(0.10, {}, "too small to show in a pull"),
)

FAULT = Fault(
    name="sensor_feed_fault",
    location="input_signal",
    shows={
        "sensor_feed": both(0.45, 0.48),
        "rest_charge_pressure": both(0.30, 0.50),
        "rest_pedal": low(0.35),
        "road_pedal": low(0.35),
    },
    on_road=lambda kind: ON_ROAD,
    proof=proved_by("sensor_feed"),
    cleared_by=("sensor_feed",),
)
