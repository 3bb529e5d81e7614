"""What is said beside a finding: the smallest defect shown, the hole on the road, instruments, the pull."""

from calc.checks.actuator_sweep import Spring
from calc.checks.control_model import Fit
from calc.checks.finding import Finding
from calc.checks.gauge_pairs import Pair
from calc.checks.heat import Share
from calc.checks.instruments import Instrument, Shown
from calc.checks.on_the_road import PlannedPull, RoadLoss, SensorLine
from calc.uncertainty.decision import Limit
from calc.words.sentences import Sentences

CANNOT_SHOW_GAIN = 0.05  # a gain error that matters: 10 kPa at 200 kPa


def smallest_shown(said: Sentences, found: Finding, shown: Shown) -> str:
    """From which reading on a defect is called, and which defect is found nearly always."""
    unit, words = found.facts.get("unit", found.unit), said.words.MEASURED

    def ends(form: str, limit: Limit) -> str:
        low, high = (
            None if end is None else said.figures.with_unit(end, unit) for end in (limit.low, limit.high)
        )
        side = "high" if low is None else "low" if high is None else "both"
        return str(words[f"{form}_{side}"].format(low=low, high=high))

    text = f"{ends('shown', shown.called)} {ends('found', shown.found)}"
    return text if shown.clears else f"{text} {words['too_coarse']}"


def road_loss(said: Sentences, loss: RoadLoss) -> str:
    """What the hole costs on the road, and the smallest that the test can show."""
    words, spelled = said.words.MEASURED, said.figures.spelled
    text = words["leak"].format(
        boost=said.figures.with_unit(loss.boost_kpa_abs, "kPa"),
        rpm=f"{loss.engine_rpm:.0f}",
        loss=f"{spelled(f'{loss.loss:.2f}')} ± {spelled(f'{loss.expanded:.2f}')}",
        share=f"{spelled(f'{100 * loss.share:.2f}')} ± {spelled(f'{100 * loss.share_expanded:.2f}')}",
    )
    if loss.shown_share is None:
        return str(text)
    return f"{text} {words['leak_shown'].format(share=spelled(f'{100 * loss.shown_share:.2f}'))}"


def sensor_line(said: Sentences, line: SensorLine) -> str:
    """The sensor's gain and offset, and plainly whether these gauges can show a gain error."""
    words, spelled = said.words.MEASURED, said.figures.spelled
    text = words["gain"].format(
        gain=f"{spelled(f'{line.gain:.3f}')} ± {spelled(f'{line.gain_expanded:.3f}')}",
        offset=said.figures.measured(line.offset_kpa, line.offset_expanded, "kPa", signed=True),
    )
    if line.gain_expanded <= CANNOT_SHOW_GAIN:
        return str(text)
    return f"{text} {words['gain_blind'].format(least=f'{100 * line.gain_expanded:.0f}')}"


def course(said: Sentences, *, monotone: bool, jump: tuple[float, float] | None) -> str:
    """Whether a solenoid's pressure goes steadily with its duty, one way, and without jumps."""
    words = said.words.MEASURED
    if not monotone:
        return str(words["course_back"])
    if jump is None:
        return str(words["course_smooth"])
    moved, duty = (f"{each:.0f}" for each in jump)
    return str(words["course_jump"].format(moved=moved, duty=duty))


def vent_to_supply(said: Sentences, own: Fit) -> str:
    """The areas of a solenoid's two passages, as this car's sweep tells them."""
    spelled = said.figures.spelled
    ratio = f"{spelled(f'{own.ratio:.2f}')} ± {spelled(f'{2.0 * own.uncertainty:.2f}')}"
    return str(said.words.MEASURED["vent_to_supply"].format(ratio=ratio))


def spring(said: Sentences, seen: Spring, sign: float) -> str:
    """Where the rod comes to rest, what the spring holds, what friction takes, the rate on the way back."""
    kpa = said.figures.measured
    return str(
        said.words.MEASURED["spring"].format(
            rests=kpa(sign * seen.rests[0], seen.rests[1], "kPa"),
            preload=kpa(sign * seen.preload[0], seen.preload[1], "kPa"),
            friction=kpa(*seen.friction, "kPa"),
            rate=kpa(*seen.falling_rate, "mm/kPa"),
        )
    )


def share(said: Sentences, found: Share) -> str:
    """Effectiveness or efficiency, or why it is refused."""
    words, spelled = said.words.MEASURED, said.figures.spelled
    if found.value is None or found.expanded is None:
        return str(words[f"{found.name}_refused"])
    value = f"{spelled(f'{found.value:.2f}')} ± {spelled(f'{found.expanded:.2f}')}"
    return str(words[found.name].format(value=value))


def instrument(said: Sentences, gauge: Instrument) -> str:
    """Doubt, calibration and hose of a gauge."""
    words, spelled, parts = said.words.MEASURED, said.figures.spelled, []
    if gauge.expanded is None:
        parts.append(words["gauge_unknown"])
    else:
        parts.append(words["gauge"].format(doubt=said.figures.with_unit(gauge.expanded, "kPa")))
    if gauge.days is None:
        parts.append(words["not_calibrated"])
    else:
        parts.append(words["calibrated" if gauge.days >= 0 else "calibrated_later"].format(days=gauge.days))
    if gauge.delay is not None and gauge.lag_kpa is not None:
        parts.append(
            words["hose_matters" if gauge.hose_matters else "hose_nothing"].format(
                length=spelled(f"{gauge.length_m:g}"),
                bore=spelled(f"{gauge.bore_mm:g}"),
                ms=f"{1000 * gauge.delay:.0f}",
                lag=said.figures.with_unit(gauge.lag_kpa, "kPa"),
            )
        )
    if gauge.turbulent:
        parts.append(words["hose_turbulent"])
    if gauge.ring is not None:
        parts.append(words["hose_rings"].format(hz=f"{gauge.ring:.0f}"))
    return " ".join(str(part) for part in parts)


def compared(said: Sentences, pair: Pair) -> str:
    """Whether two gauges agree at a pressure within both doubts."""
    kpa = said.figures.with_unit
    words = said.words.MEASURED["gauges_agree" if pair.agree else "gauges_disagree"]
    return str(
        words.format(
            first=pair.first,
            second=pair.second,
            pressure=kpa(pair.p_kpa, "kPa"),
            apart=kpa(abs(pair.apart), "kPa"),
            doubt=kpa(pair.expanded, "kPa"),
        )
    )


def pull(said: Sentences, planned: PlannedPull) -> str:
    """A pull planned ahead, and where it passes the speed typed in."""
    words = said.words.MEASURED
    text = words["pull"].format(
        gear=planned.gear,
        slow=f"{planned.from_kmh:.0f}",
        fast=f"{planned.to_kmh:.0f}",
        seconds=f"{planned.seconds:.0f}",
        metres=f"{planned.metres:.0f}",
    )
    if planned.legal_rpm is None:
        return str(text)
    return f"{text} {words['pull_legal'].format(rpm=f'{planned.legal_rpm:.0f}')}"
