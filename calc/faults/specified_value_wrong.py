"""Sound inputs, full request, no limit, and still the wrong specified value.

What it does    The control unit aims at the wrong boost and reaches it; altered software included.
Speaks for      specified outside the maker's peak with every input proved good.
Against         specified within the maker's peak.
Can mislead     any input that was not examined can make it: it is only what is left.
Proof           never by direct measurement here.
Cure            the maker's software, by the maker's way.
Next test       sensors at rest, then the log.
"""

from calc.faults.model import Fault, both
from calc.faults.pictures import steered

FAULT = Fault(
    name="specified_value_wrong",
    location="control_unit",
    shows={},
    on_road=lambda kind: steered({"road_specified": both(0.55, 0.40)}, 0.97, "it aims at the wrong value"),
)
