"""Coil, supply or ground of the control solenoid is open, short or weak.

What it does    The solenoid stands unpowered: boost goes to the side that the car's arrangement leaves it.
Speaks for      coil outside its limit, or too much voltage lost on supply or ground.
Against         coil, supply and ground all within, under load.
Can mislead     a coil is read warm: correct to 20 degC; a transistor on the ground side keeps up to about
                0.5 V.
Proof           coil, supply or ground outside its limit.
Cure            mend the wiring or renew the solenoid.
Next test       solenoid electrical.
"""

from calc.checks.evidence import Kind
from calc.faults import effects
from calc.faults.model import PNEUMATIC, Fault, Picture, any_of, both, high, low
from calc.faults.pictures import BASE_BOOST, HIGH_USED_UP


def on_road(kind: Kind) -> tuple[Picture, ...]:
    """Unpowered, boost goes to the fail-safe side; where the duty's effect is unknown, to either."""
    falls = {**BASE_BOOST, "road_control_pressure": both(0.02, 0.80)}
    rises = {**HIGH_USED_UP, "road_control_pressure": both(0.80, 0.02)}
    if kind.vacuum:
        falls, rises = (
            {**falls, "road_control_pressure": low(0.8)},
            {**rises, "road_control_pressure": high(0.8)},
        )
    share = {None: 0.5, False: 0.9, True: 0.02}[kind.unplugged_raises_boost]
    return (
        Picture(share, falls, "it falls to base boost"),
        Picture(0.92 - share, rises, "it runs to the far end"),
        Picture(0.08, {}, "a contact that comes and goes"),
    )


FAULT = Fault(
    name="solenoid_circuit_fault",
    location="drive_circuit",
    shows={
        "solenoid_coil": both(0.12, 0.45),  # open or corroded more often than short
        "solenoid_supply": high(0.20),
        "solenoid_ground": high(0.20),
        "solenoid_response": low(0.93),
    },
    on_road=on_road,
    proof=any_of("solenoid_coil", "solenoid_supply", "solenoid_ground"),
    cleared_by=("solenoid_coil", "solenoid_supply", "solenoid_ground"),
    effect=effects.fail_safe,
    actuators=PNEUMATIC,
)
