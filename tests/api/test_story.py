"""Beside the verdict: no part is called bad that was not measured, a way on is always named."""

import pytest

from api.pdf.airline import ACTUATOR, LIKELY, TURBO, state
from api.pdf.figures import Printer
from api.pdf.story import gauges, proposal, unpriced
from api.pdf.words import LANGUAGES, words_for
from calc.words.english import LOCATIONS

OUTSIDE = {"turbo_radial_play": {"outcome": "outside"}}


def printer(language: str = "en") -> Printer:
    return Printer("bar", words_for(language))


def test_a_part_breaks_the_line_only_where_a_measurement_showed_it() -> None:
    likely = {"location": "turbocharger", "standing": "likely"}
    assert state(TURBO, {}, likely) == LIKELY
    assert state(TURBO, OUTSIDE, likely) == "outside"
    assert state(TURBO, {}, likely | {"standing": "proved"}) == "outside"
    assert state(ACTUATOR, {}, likely) == "not_examined"


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("location", [one for one in LOCATIONS if one != "none"])
def test_every_proved_fault_has_a_proposal(location: str, language: str) -> None:
    verdict = {"conclusion": {"fault": "x", "location": location, "standing": "proved"}, "next_test": None}
    assert printer(language).words.text[f"propose_{location}"] == proposal(verdict, printer(language))


def test_what_is_not_certain_is_tested_first_and_has_no_price() -> None:
    test = {"test": "smoke", "minutes": 15}
    assert "about 15 minutes" in proposal({"conclusion": None, "next_test": test}, printer())
    likely = {"fault": "turbocharger_worn", "location": "turbocharger", "standing": "likely"}
    assert "not yet certain" in proposal({"conclusion": likely, "next_test": test}, printer())
    assert "once the cause is known" in unpriced({"conclusion": None}, printer())
    nothing = {"conclusion": {"fault": "no_fault_found", "location": "none", "standing": "likely"}}
    assert "nothing to mend" in unpriced(nothing, printer())


def test_a_gauge_without_a_date_is_said_to_have_none() -> None:
    dial = {"kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6}
    said = gauges({"gauges": [dial | {"calibrated_on": "2026-03-02"}, dial]}, printer())
    assert (
        said[0] == "Gauge 1: dial, 0.00 to 4.00\N{NO-BREAK SPACE}bar, class 1.6, calibrated on 2 March 2026."
    )
    assert said[1].endswith("no date of calibration noted.")
