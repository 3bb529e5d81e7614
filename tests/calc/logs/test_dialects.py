"""Logs rendered in many dialects are read back as what was written."""

from dataclasses import replace

import pytest

from calc.logs import read_log
from tests.calc.drives import AIR_KPA, Drive, drive
from tests.calc.logs.dialects import Dialect, Rendered, render


def languages() -> list[Dialect]:
    """Every language and wording in the signs that are usual there."""
    found = []
    for language, variant, place in [
        (language, variant, place)
        for language, variants in (("en", 3), ("de", 2), ("fr", 2), ("es", 2))
        for variant in range(variants)
        for place in ("brackets", "row", "trailing")
    ]:
        comma = language != "en"
        found.append(
            Dialect(
                language,
                variant,
                ";" if comma else ",",
                comma,
                "cp1252" if comma else "utf-8",
                unit_place=place,
                extra=2,
            )
        )
    return found


def pressures() -> list[Dialect]:
    return [
        Dialect(
            pressure=unit, kind=kind, unit_place=place, says_kind=says, says_air=kind == "gauge", preamble=2
        )
        for unit in ("kPa", "hPa", "mbar", "bar", "psi", "inHg")
        for kind in ("absolute", "gauge")
        for place, says in (("brackets", False), ("row", True))
    ]


def unitless() -> list[Dialect]:
    return [
        Dialect(pressure=unit, kind=kind, unit_place="none", says_air=True, preamble=1)
        for unit in ("kPa", "mbar", "bar", "psi")
        for kind in ("absolute", "gauge")
    ]


def times() -> list[Dialect]:
    return [
        Dialect(time=time, comma=comma, delimiter=";" if comma else "\t", unit_place=place)
        for time in ("ms", "clock", "date", "each", "whole_seconds")
        for comma in (False, True)
        for place in ("brackets", "none")
    ]


def others() -> list[Dialect]:
    plain = Dialect(extra=3)
    german = Dialect("de", 0, ";", True, "cp1252", preamble=3, extra=3)
    return [
        replace(plain, delimiter="\t"),
        replace(plain, delimiter=",", comma=True),  # decimal commas in quotes
        replace(plain, encoding="utf-8-sig"),
        replace(plain, encoding="utf-16"),
        replace(plain, newline="\r\n"),
        replace(plain, newline="\r"),
        replace(plain, trailing=True),
        replace(plain, twice=True),
        replace(plain, gaps=0.05),
        replace(plain, words_in_cells=0.02),
        replace(plain, repeats=5),
        replace(plain, back=4),
        replace(plain, torn=True),
        replace(plain, blank=6),
        replace(plain, header_again=True),
        replace(plain, air="kg/h"),
        replace(plain, air="stroke", says_engine=True, preamble=2),
        replace(plain, air="stroke"),
        replace(german, gaps=0.1, words_in_cells=0.02, repeats=3, back=2, blank=2, torn=True),
        replace(german, air="stroke", says_engine=True, kind="gauge", says_air=True, pressure="bar"),
        replace(german, time="each", extra=0),
        replace(german, time="clock", newline="\r\n", twice=True, trailing=True),
        replace(german, language="fr", time="ms", unit_place="row", header_again=True),
        replace(german, language="es", pressure="kPa", unit_place="row", kind="gauge", says_air=True),
    ]  # fmt: skip


ALL = [*languages(), *pressures(), *unitless(), *times(), *others()]


def rendered(how: Dialect, what: Drive | None = None) -> Rendered:
    channels = drive(what or Drive(seed=how.seed + 3, rows_a_second=5.0))
    if how.unit_place == "none":
        del channels["correction_pct"]  # per cent or pressure: without a unit nobody can tell
    return render(channels, how, air_kpa=AIR_KPA, litres=1.8, cylinders=4)


def check(log: Rendered, how: Dialect) -> None:
    """Every channel read, every value right, every odd row and cell accounted for."""
    run = read_log(log.data, **log.facts)
    read, truth = run["channels"], log.channels
    assert set(read) == set(truth)
    assert len(read["t_s"]) == len(truth["t_s"])
    spread = 1.0 if how.time == "whole_seconds" else 0.0006
    for name, values in truth.items():
        if name == "t_s":
            assert all(abs(a - b) <= spread for a, b in zip(read[name], values, strict=True))
            continue
        within = log.tolerance[name] + (0.06 if name.startswith("boost") else 0.0006)
        for row, (got, wanted) in enumerate(zip(read[name], values, strict=True)):
            if wanted is None and how.time == "each":
                continue
            assert (got is None) == (wanted is None), (name, row)
            assert wanted is None or abs(got - wanted) <= within, (name, row, got, wanted)
    rows = sum(item["count"] for item in run["left_out"] if item["what"] == "row")
    cells = sum(item["count"] for item in run["left_out"] if item["what"] == "cell")
    assert (rows, cells) == (log.rows_left_out, log.cells_left_out)
    guesses = {guess["channel"]: guess for guess in run["guesses"]}
    assert set(guesses) == set(read)
    for name, column in log.columns.items():
        assert guesses[name]["column"] == column
    assert all(0.0 < guess["certainty"] <= 1.0 for guess in guesses.values())
    kinds = {guesses[name]["kind"] for name in guesses if name.endswith("_kpa_abs")}
    assert kinds == {how.kind}


def test_there_are_eighty_and_more() -> None:
    assert len(ALL) >= 80
    assert len(set(ALL)) == len(ALL)


@pytest.mark.parametrize(
    "how",
    ALL,
    ids=lambda how: f"{how.language}{how.variant}-{how.pressure}-{how.kind}-{how.time}-{how.unit_place}",
)
def test_a_log_in_a_dialect_is_read_as_written(how: Dialect) -> None:
    check(rendered(how), how)
