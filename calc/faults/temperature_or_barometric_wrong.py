"""An intake air, coolant or barometric signal wrongly limits the specified value.

What it does    The control unit protects an engine that is neither hot nor high up: specified below
                request.
Speaks for      a temperature apart from the air around the cold car.
Against         intake air and coolant near ambient on the cold car.
Can mislead     a car that is not cold: heat soak looks like a wrong sensor.
Proof           rest temperatures outside on the cold car.
Cure            renew the sensor or mend its wiring.
Next test       sensors at rest, car cold.
"""

from calc.checks.evidence import Kind
from calc.faults.model import Fault, Findings, both, outside
from calc.faults.pictures import LIMITED, steered


def proof(findings: Findings, kind: Kind) -> tuple[str, ...]:
    """A temperature apart from the air around the cold car, and not for want of a sound feed."""
    apart = outside(findings, "rest_temperatures") and not outside(findings, "sensor_feed")
    return ("rest_temperatures",) if apart else ()


FAULT = Fault(
    name="temperature_or_barometric_wrong",
    location="input_signal",
    shows={"rest_temperatures": both(0.40, 0.50)},
    on_road=lambda kind: steered(LIMITED, 0.9, "a limit acts that has no cause"),
    proof=proof,
    cleared_by=("rest_temperatures",),
)
