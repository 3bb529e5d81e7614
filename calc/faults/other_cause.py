"""Something outside the table.

What it does    Anything: it is kept open so that the table never has to be right.
Speaks for      findings that no fault of the table makes.
Against         a proved fault that explains the complaint.
Can mislead     it grows when tests are missing.
Proof           none.
Cure            none.
Next test       what is cheapest of what was not examined.
"""

from calc.faults.model import Fault, Picture, high, low, nowhere
from calc.faults.pictures import HIDDEN_HIGH, HIDDEN_LOW, HIGH_USED_UP, LOW_USED_UP, SENSOR_LOW

# the wrong part fitted, a choked sensor pipe, learned values that are off: to either side, or not at all
ON_ROAD = (
    Picture(0.15, {**LOW_USED_UP, "base_boost": low(0.40)}, "an unknown cause takes boost away"),
    Picture(0.15, {**HIGH_USED_UP, "base_boost": high(0.50)}, "an unknown cause lets boost rise"),
    Picture(0.10, HIDDEN_LOW, "the loop hides it, towards more boost"),
    Picture(0.05, HIDDEN_HIGH, "the loop hides it, towards less boost"),
    Picture(0.05, SENSOR_LOW, "what the sensor sees is not what there is"),
    Picture(0.50, {}, "an unknown cause that boost does not show"),
)

FAULT = Fault(
    name="other_cause",
    location="elsewhere",
    on_road=lambda kind: ON_ROAD,
    likely_where=nowhere,
)
