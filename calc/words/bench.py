"""What is said beside the findings of the bench: the decay test ahead, the coil warm, the sensor's signal."""

from calc.checks.decay_plan import FALLING_KG, PLUG_MM, Stored, Watch
from calc.words.sentences import Sentences


def stored(said: Sentences, seen: Stored) -> str:
    """What the air of the test pushes and holds, in figures that a hand knows."""
    words = said.words.MEASURED
    text = words["plug"].format(
        pressure=said.figures.with_unit(seen.kpa, "kPa"),
        bore=f"{PLUG_MM:.0f}",
        force=f"{seen.force:.0f}",
        weight=f"{seen.weight:.0f}",
    )
    if seen.joules is None:
        return str(text)
    energy = words["stored"].format(
        litres=said.figures.spelled(f"{seen.litres:.3g}"),
        joules=f"{seen.joules:.0f}",
        weight=f"{FALLING_KG:.0f}",
        height=said.figures.spelled(f"{seen.height:.1f}"),
    )
    return f"{text} {energy}"


def watched(said: Sentences, seen: Watch) -> str:
    """How long to wait, or what a hole at the limit would have left, and whether the wait was too short."""
    words, kpa = said.words.MEASURED, said.figures.with_unit(seen.left_kpa, "kPa")
    hole = said.figures.with_unit(seen.limit_mm, "mm")
    if seen.seconds is None:
        return str(words["watch"].format(seconds=seen.needed, hole=hole, left=kpa))
    text = str(words["watched"].format(seconds=f"{seen.seconds:.0f}", hole=hole, left=kpa))
    if not seen.too_short:
        return text
    return f"{text} {words['watched_too_short'].format(seconds=seen.needed)}"


def coil_warm(said: Sentences, celsius: float, low: float | None, high: float | None) -> str:
    """What a coil in order reads at the temperature that was typed in."""
    ends = [None if end is None else said.figures.with_unit(end, "ohm") for end in (low, high)]
    form = "coil_warm_high" if low is None else "coil_warm_low" if high is None else "coil_warm"
    return str(
        said.words.MEASURED[form].format(
            celsius=said.figures.spelled(f"{celsius:.0f}"), low=ends[0], high=ends[1]
        )
    )


def coil_hot(said: Sentences, celsius: float) -> str:
    """How warm a coil in order would have to be to read as this one does."""
    return str(said.words.MEASURED["coil_hot"].format(celsius=f"{celsius:.0f}"))


def signal_for(said: Sentences, volts: float) -> str:
    """The signal that the air outside calls for."""
    return str(said.words.MEASURED["signal_for"].format(volts=said.figures.with_unit(volts, "V")))
