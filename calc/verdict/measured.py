"""Keys of our own beside findings and verdict: what was measured means, and what the instruments can show."""

from collections.abc import Mapping
from typing import Any

from calc.checks import BY_NAME
from calc.checks.actuator_sweep import spring
from calc.checks.control_model import fitted
from calc.checks.decay_plan import stored, watch
from calc.checks.evidence import SEA_LEVEL_KPA, Evidence
from calc.checks.finding import Finding
from calc.checks.foreseen import foreseen
from calc.checks.heat import shares
from calc.checks.hold_hole import hole_of_hold
from calc.checks.humid import humid_air
from calc.checks.instruments import Shown, instruments, smallest_shown
from calc.checks.on_the_road import best_gear, road_loss, road_plan, sensor_line
from calc.checks.sensors_at_rest import pressure_by_signal, signal_called_for
from calc.checks.solenoid import Warm, warm_coil
from calc.errors import OutOfRange
from calc.physics.engine_air import absolute_load
from calc.physics.vin import check_digit_fits
from calc.uncertainty.decision import Limit
from calc.uncertainty.gauge import difference
from calc.verdict.rounding import significant
from calc.words import bench as bench_words
from calc.words import measured as words
from calc.words.sentences import Sentences

DIGITS, DOUBT_DIGITS = 6, 3
Row = dict[str, Any]


def beside_finding(found: Finding, evidence: Evidence, said: Sentences) -> Row:
    """Further keys of a finding; empty where there is nothing to add."""
    shown = smallest_shown(found)
    row = _shown(found, shown, evidence, said)
    more = (MORE if found.value is not None else AHEAD).get(found.check)
    return {**row, **more(found, shown, evidence, said)} if more else row


def _shown(found: Finding, seen: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """The smallest defect that was shown, or that the test, not made yet, could show."""
    judged = found if found.examined else foreseen(BY_NAME[found.check], evidence)
    if judged is None:
        return {}
    shown = seen if found.examined else smallest_shown(judged)
    if shown is None:
        return {"smallest_shown": {"low": None, "high": None, "says": said.words.MEASURED["shown_by_eye"]}}
    return {
        "smallest_shown": {
            **_ends(shown.called),
            "found": _ends(shown.found),
            "clears": shown.clears,
            "says": words.smallest_shown(said, judged, shown),
        }
    }


def _hole(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    mm = found.facts["adiabatic_mm"]
    says = said.words.MEASURED["adiabatic"].format(mm=said.figures.number(mm, "mm"))
    row = {"adiabatic": {"value": significant(mm, DOUBT_DIGITS), "says": says}}
    row |= _watched(evidence, said)
    if evidence.number("/tests/charge_decay/air_end_c") is None:
        kpa = found.facts["one_kelvin_kpa"]
        says = said.words.MEASURED["one_kelvin"].format(kpa=said.figures.with_unit(kpa, "kPa"))
        row["one_kelvin"] = {"value": significant(kpa, DOUBT_DIGITS), "says": says}
    loss = road_loss(evidence, found, None if shown is None else shown.called.high)
    if loss is None:
        return row
    figures = {
        "boost_kpa_abs": loss.boost_kpa_abs,
        "engine_rpm": loss.engine_rpm,
        "loss_gps": loss.loss,
        "loss_expanded_gps": loss.expanded,
        "share_pct": 100.0 * loss.share,
        "share_expanded_pct": 100.0 * loss.share_expanded,
        "smallest_share_pct": None if loss.shown_share is None else 100.0 * loss.shown_share,
    }
    on_road = {key: significant(value, DOUBT_DIGITS) for key, value in figures.items()}
    return {**row, "on_road": {**on_road, "says": words.road_loss(said, loss)}}


def _decay_ahead(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """Before the decay is read: what its air can do to somebody, and how long it has to be watched."""
    held = stored(evidence)
    energy = {
        "p_kpa": significant(held.kpa, DIGITS),
        "plug_force_n": significant(held.force, DOUBT_DIGITS),
        "energy_j": significant(held.joules, DOUBT_DIGITS),
        "says": bench_words.stored(said, held),
    }
    return {"stored_energy": energy, **_watched(evidence, said)}


def _watched(evidence: Evidence, said: Sentences) -> Row:
    ahead = watch(evidence)
    if ahead is None:
        return {}
    return {
        "watch": {
            "seconds": significant(ahead.seconds, DIGITS),
            "needed_s": ahead.needed,
            "limit_leaves_kpa": significant(ahead.left_kpa, DOUBT_DIGITS),
            "says": bench_words.watched(said, ahead),
        },
    }


def _coil(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """What an intact coil reads at the temperature typed in, and whether heat could explain this one."""
    warm: Warm = warm_coil(evidence, found)
    row: Row = {}
    if warm.celsius is not None:
        says = bench_words.coil_warm(said, warm.celsius, warm.low, warm.high)
        row["warm_limit"] = {**_ends(Limit(warm.low, warm.high)), "says": says}
    if warm.explained_at_c is not None:
        says = bench_words.coil_hot(said, warm.explained_at_c)
        row["explained_by_heat"] = {"value": significant(warm.explained_at_c, DOUBT_DIGITS), "says": says}
    return row


def _sensor(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    line = sensor_line(evidence)
    if line is None:
        return {}
    return {
        "line": {
            "gain": significant(line.gain, DIGITS),
            "gain_expanded": significant(line.gain_expanded, DOUBT_DIGITS),
            "offset_kpa": significant(line.offset_kpa, DIGITS),
            "offset_expanded_kpa": significant(line.offset_expanded, DOUBT_DIGITS),
            "says": words.sensor_line(said, line),
        }
    }


def _heat(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    return {
        share.name: {
            "value": significant(share.value, DOUBT_DIGITS),
            "expanded_uncertainty": significant(share.expanded, DOUBT_DIGITS),
            "says": words.share(said, share),
        }
        for share in shares(evidence)
    }


def _load(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """Absolute load at the moment judged, and the water in the air where its humidity was given."""
    mass, rpm = found.facts.get("air_mass_gps"), found.facts.get("engine_rpm")
    litres = evidence.number("/vehicle/displacement_l")
    strokes = 2 if evidence.number("/vehicle/strokes") == 2.0 else 4
    row = _humid(evidence, said)
    if mass is None or not litres or not rpm:
        return row
    try:
        load = 100.0 * absolute_load(mass / 1e3, litres / 1e3, rpm, strokes)
    except OutOfRange:
        return row
    says = said.words.MEASURED["absolute_load"].format(load=f"{load:.0f}")
    return {**row, "absolute_load": {"value": significant(load, DOUBT_DIGITS), "unit": "pct", "says": says}}


def _humid(evidence: Evidence, said: Sentences) -> Row:
    humid = humid_air(evidence)
    if humid is None:
        return {}
    water = said.figures.spelled(f"{100.0 * (1.0 - humid.dry_share):.1f}")
    return {
        "humid_air": {
            "vapour_kpa": significant(humid.vapour / 1e3, DOUBT_DIGITS),
            "humidity_ratio": significant(humid.ratio, DOUBT_DIGITS),
            "says": said.words.MEASURED["humid_air"].format(water=water),
        }
    }


def _by_signal(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """What the charge pressure sensor's voltage means, beside what the car makes of it."""
    meant = pressure_by_signal(evidence)
    if meant is None:
        return {}
    doubt = 2.0 * meant.uncertainty
    pressure = said.figures.measured(meant.value, doubt, "kPa_abs")
    row: Row = {
        "by_signal": {
            "value": significant(meant.value, DIGITS),
            "expanded_uncertainty": significant(doubt, DOUBT_DIGITS),
            "says": said.words.MEASURED["by_signal"].format(pressure=pressure),
        }
    }
    volts = signal_called_for(evidence)
    if volts is not None:
        row["signal_for"] = {"value": significant(volts, DIGITS), "says": bench_words.signal_for(said, volts)}
    return row


def _actuator_hole(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """The hold loss as the sharp-edged hole that would lose as much from the actuator's own volume."""
    hole = hole_of_hold(evidence)
    if hole is None:
        return {}
    mm, doubt = hole
    figure = " ± ".join(said.figures.spelled(f"{each:.2f}") for each in hole)
    says = said.words.MEASURED["actuator_hole"].format(mm=figure)
    return {
        "hole_mm": {
            "value": significant(mm, DOUBT_DIGITS),
            "expanded_uncertainty": significant(doubt, DOUBT_DIGITS),
            "says": says,
        }
    }


def _vacuum(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """What the same pump would show at sea level, and what the reservoir loses with the engine stopped."""
    test, row = "/tests/vacuum_supply", {}
    outside = evidence.barometric
    if outside.pointer and found.value is not None and (left := outside.value + found.value) >= 0.0:
        here, there = (
            said.figures.with_unit(value, "kPa") for value in (outside.value, left - SEA_LEVEL_KPA)
        )
        says = said.words.MEASURED["vacuum_at_sea_level"].format(outside=here, vacuum=there)
        row["at_sea_level"] = {"value": significant(left - SEA_LEVEL_KPA, DIGITS), "says": says}
    before, after = (evidence.test_pressure("vacuum_supply", key) for key in ("p_kpa", "p_end_kpa"))
    seconds = evidence.number(f"{test}/hold_s")
    if before is None or after is None or not seconds or seconds <= 0.0:
        return row
    lost, doubt = (60.0 * part / seconds for part in difference(after, before))
    figure = said.figures.measured(lost, 2.0 * doubt, "kPa/min")
    says = said.words.MEASURED["vacuum_lost"].format(loss=figure)
    return {**row, "leak_down": {"value": significant(lost, DIGITS), "unit": "kPa/min", "says": says}}


def _where(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """Where in the pull boost is off."""
    where = found.facts.get("where")
    if where is None or found.outcome == "within":
        return {}
    return {"where": {"value": where, "says": said.words.MEASURED[f"where_{where}"]}}


def _course(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """How the control pressure goes with the duty, and the passages that this sweep tells of."""
    jump, monotone = found.facts.get("jump"), bool(found.facts.get("monotone"))
    says = words.course(said, monotone=monotone, jump=jump)
    row: Row = {"course": {"monotone": monotone, "smooth": jump is None, "says": says}}
    own = fitted(evidence)
    if own is None:
        return row
    return {
        **row,
        "vent_to_supply": {
            "value": significant(own.ratio, DIGITS),
            "expanded_uncertainty": significant(2.0 * own.uncertainty, DOUBT_DIGITS),
            "says": words.vent_to_supply(said, own),
        },
    }


def _spring(found: Finding, shown: Shown | None, evidence: Evidence, said: Sentences) -> Row:
    """Preload and friction told apart by the rising and the falling sweep, each with its doubt."""
    seen = spring(evidence)
    if seen is None:
        return {}
    sign = -1.0 if evidence.kind.vacuum else 1.0
    pairs = {
        "rests_kpa": (sign * seen.rests[0], seen.rests[1]),
        "preload_kpa": (sign * seen.preload[0], seen.preload[1]),
        "friction_kpa": seen.friction,
        "falling_rate_mm_per_kpa": seen.falling_rate,
    }
    figures = {
        name: {"value": significant(value, DIGITS), "expanded_uncertainty": significant(doubt, DOUBT_DIGITS)}
        for name, (value, doubt) in pairs.items()
    }
    return {"spring": {**figures, "says": words.spring(said, seen, sign)}}


AHEAD = {"charge_leak_hole": _decay_ahead}
MORE = {
    "solenoid_coil": _coil,
    "rest_charge_pressure": _by_signal,
    "actuator_hysteresis": _spring,
    "solenoid_response": _course,
    "charge_leak_hole": _hole,
    "road_tracking": _where,
    "road_sensor": _sensor,
    "cooler_drop": _heat,
    "road_air_mass": _load,
    "actuator_hold": _actuator_hole,
    "vacuum_supply": _vacuum,
}


def beside_verdict(evidence: Evidence, said: Sentences) -> Row:
    """`instruments`, `road_plan` and `hints` of the verdict."""
    plan = road_plan(evidence)
    legal = evidence.number("/site/speed_limit_kmh")
    best = best_gear(plan, legal)
    rows = [
        {
            "gear": pull.gear,
            "from_kmh": significant(pull.from_kmh, DOUBT_DIGITS),
            "to_kmh": significant(pull.to_kmh, DOUBT_DIGITS),
            "seconds": significant(pull.seconds, DOUBT_DIGITS),
            "metres": significant(pull.metres, DOUBT_DIGITS),
            "legal": None if legal is None else pull.to_kmh <= legal,
            "legal_rpm": significant(pull.legal_rpm, DIGITS),
            "says": words.pull(said, pull),
        }
        for pull in plan
    ]
    return {
        "instruments": [
            {
                "gauge": gauge.gauge,
                "expanded_uncertainty": significant(gauge.expanded, DOUBT_DIGITS),
                "days_since_calibration": gauge.days,
                "hose_delay_s": significant(gauge.delay, DOUBT_DIGITS),
                "hose_matters": gauge.hose_matters,
                "hose_rings_hz": significant(gauge.ring, DOUBT_DIGITS),
                "says": words.instrument(said, gauge),
            }
            for gauge in instruments(evidence)
        ],
        "gauges_compared": [
            {
                "gauges": [pair.first, pair.second],
                "p_kpa": significant(pair.p_kpa, DIGITS),
                "difference_kpa": significant(pair.apart, DIGITS),
                "expanded_uncertainty": significant(pair.expanded, DOUBT_DIGITS),
                "agree": pair.agree,
                "read_from": list(pair.places),
                "says": words.compared(said, pair),
            }
            for pair in evidence.compared
        ],
        "road_plan": {"pulls": rows, "gear": None if best is None else best.gear},
        "hints": _hints(evidence, said, none_legal=bool(plan) and legal is not None and best is None),
    }


def _hints(evidence: Evidence, said: Sentences, *, none_legal: bool) -> list[str]:
    found = [words.compared(said, pair) for pair in evidence.compared if not pair.agree]
    if none_legal:
        found.append(said.words.MEASURED["no_legal_gear"])
    vin = evidence.get("/vehicle/vin")
    try:
        if vin and not check_digit_fits(str(vin).strip().upper()):
            found.append(said.words.MEASURED["vin_hint"])
    except OutOfRange:
        pass  # not 17 letters and digits: an older number, or none
    return found


def _ends(limit: Limit) -> Mapping[str, float | None]:
    return {"low": significant(limit.low, DIGITS), "high": significant(limit.high, DIGITS)}
