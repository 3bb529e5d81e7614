"""Sound inputs, full request, no limit, and still the wrong specified value.

What it does    The control unit aims at the wrong boost and reaches it; altered software included.
Speaks for      specified outside the maker's peak with every input proved good.
Against         specified within the maker's peak.
Can mislead     any input that was not examined can make it: it is only what is left.
Proof           never by direct measurement here.
Cure            the maker's software, by the maker's way.
Next test       sensors at rest, then the log.
"""

from calc.checks.evidence import Kind
from calc.faults.model import Fault, Findings, Picture, high, low, outside

# every input that could make the control unit aim wrongly; of each line one must be within, none outside
INPUTS = (
    ("rest_pedal", "road_pedal"),
    ("rest_air_mass", "road_air_mass"),
    ("rest_temperatures",),
    ("rest_charge_pressure",),
    ("road_sensor", "rest_charge_pressure"),
)
NO_LIMIT = ("road_request", "road_reduced_power")


def inputs_are_sound(findings: Findings, kind: Kind) -> bool:
    """Pedal, air mass, temperature, barometric and charge pressure signals within, no limit in force."""
    for checks in INPUTS:
        if any(outside(findings, check) for check in checks):
            return False
        if not any(findings[check].outcome == "within" for check in checks):
            return False
    limits = [findings[check] for check in NO_LIMIT]
    return any(found.outcome == "within" for found in limits) and all(
        found.outcome in ("within", "not_examined") for found in limits
    )


FAULT = Fault(
    name="specified_value_wrong",
    location="control_unit",
    shows={},
    on_road=lambda kind: (
        Picture(
            0.40, {"road_specified": low(0.93), "road_request": low(0.85)}, "it aims below what is asked"
        ),
        Picture(0.30, {"road_specified": low(0.93)}, "what is asked is computed too low as well"),
        Picture(0.27, {"road_specified": high(0.93)}, "it aims too high, altered software mostly"),
        Picture(0.03, {}, "too small to show in a pull"),
    ),
    likely_where=inputs_are_sound,
)
