"""Something outside the table.

What it does    Anything: it is kept open so that the table never has to be right.
Speaks for      findings that no fault of the table makes.
Against         a proved fault that explains the complaint.
Can mislead     it grows when tests are missing.
Proof           none.
Cure            none.
Next test       what is cheapest of what was not examined.
"""

from calc.faults.model import Fault, Picture, both, nowhere

# it may move anything a little: a third of such causes show on the road, to either side
ON_ROAD = (
    Picture(
        0.35,
        {
            "road_real_boost": both(0.45, 0.25),
            "road_tracking": both(0.45, 0.25),
            "road_authority": both(0.2, 0.3),
        },
        "an unknown cause moves boost",
    ),
    Picture(0.65, {}, "an unknown cause that boost does not show"),
)

FAULT = Fault(
    name="other_cause",
    location="elsewhere",
    shows={},
    on_road=lambda kind: ON_ROAD,
    likely_where=nowhere,
)
