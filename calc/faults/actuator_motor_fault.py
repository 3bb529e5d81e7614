"""An electric actuator does not go where it is commanded, or says it did and the rod did not.

What it does    Gate or vanes stand where nobody asked for them: boost too high or too low.
Speaks for      commanded and reported position apart, stops not learned, rod not seen moving.
Against         position within, rod seen moving.
Can mislead     the reported position is the motor's, not the flap's: somebody looks at the rod; a seized gate
                holds a sound motor back: the rod is unhooked and the crank moved by hand.
Proof           position outside, stops not learned or the rod not moving.
Cure            renew or re-learn the actuator as its maker says.
Next test       command it in steps and watch the rod.
"""

from calc.faults.model import Fault, Picture, both, proved_by
from calc.faults.pictures import HIGH_USED_UP, LOW_USED_UP

ON_ROAD = (
    Picture(0.5, LOW_USED_UP, "it stands too far open"),
    Picture(0.35, HIGH_USED_UP, "it stands too far closed"),
    Picture(0.15, {}, "it sticks now and then"),
)

FAULT = Fault(
    name="actuator_motor_fault",
    location="actuator",
    shows={"actuator_position": both(0.47, 0.47)},
    on_road=lambda kind: ON_ROAD,
    proof=proved_by("actuator_position", unless="actuator_moves"),
    cleared_by=("actuator_position",),
    actuators=("electric",),
)
