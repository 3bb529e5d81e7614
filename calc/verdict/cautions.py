"""What can hurt, as the readings and the next test call for it: keys of the catalogue, worst first."""

from calc.checks.evidence import Evidence
from calc.faults.model import Findings
from calc.faults.next_test import FULL_LOAD


def cautions(
    evidence: Evidence, findings: Findings, next_test: str | None, *, nothing_left: bool
) -> list[str]:
    """Keys of `words.CAUTIONS` that hold for this job now."""
    looked = findings["turbo_wheels"]
    tight = findings["smoke_leak"].examined or findings["charge_leak_hole"].value is not None
    wrong_turbo = looked.outcome == "outside"
    said = {
        "wheel": wrong_turbo,
        "oil": evidence.get("/tests/turbo_inspection/oil_in_outlet") is True,
        "overboost": any(
            findings[name].outcome == "outside" and findings[name].side == "high"
            for name in ("road_real_boost", "road_peak", "road_overboost")
        ),
        "stored_energy": next_test == "charge_decay",
        "tightness_first": not wrong_turbo and not (tight and looked.examined),
        "road": next_test in FULL_LOAD,
        "reduced_power": findings["road_reduced_power"].outcome == "outside",
        "modified": bool(evidence.get("/vehicle/modified")),
        "not_seen": _rod_only(findings),
        "no_barometer": _pressures_made_absolute(findings) and not evidence.barometric.pointer,
        "gauges_disagree": bool(evidence.disputed),
        "nothing_left": nothing_left,
        "high_voltage": _is_hybrid(evidence),
    }
    return [key for key, holds in said.items() if holds]


def _rod_only(findings: Findings) -> bool:
    rod = (findings["actuator_moves"], findings["actuator_returns"])
    return any(found.outcome == "within" for found in rod) and not findings["wastegate_seat"].examined


def _pressures_made_absolute(findings: Findings) -> bool:
    return any(findings[name].value is not None for name in ("road_real_boost", "road_peak", "road_sensor"))


def _is_hybrid(evidence: Evidence) -> bool:
    fuel = str(evidence.get("/vehicle/fuel") or "").lower()
    return "hybrid" in fuel or "electric" in fuel
