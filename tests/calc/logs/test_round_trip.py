"""A random run in a random dialect comes back as it was written; and what a technician fixes is fixed."""

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calc import read_job
from calc.errors import UnreadableLog
from calc.logs import read_log
from tests.calc.drives import Drive
from tests.calc.logs.dialects import WORDS, Dialect
from tests.calc.logs.test_dialects import check, rendered

LANGUAGES = [(language, variant) for language, variants in WORDS.items() for variant in range(len(variants))]


@st.composite
def dialects(draw: st.DrawFn) -> Dialect:
    language, variant = draw(st.sampled_from(LANGUAGES))
    time = draw(st.sampled_from(["s", "s", "ms", "clock", "date", "each"]))
    kind = draw(st.sampled_from(["absolute", "gauge"]))
    air = draw(st.sampled_from(["g/s", "kg/h", "stroke"]))
    dirty = time != "each" and air != "stroke"
    return Dialect(
        language,
        variant,
        delimiter=draw(st.sampled_from([";", ",", "\t"])),
        comma=draw(st.booleans()),
        encoding=draw(st.sampled_from(["utf-8", "utf-8-sig", "cp1252", "utf-16"])),
        newline=draw(st.sampled_from(["\n", "\r\n"])),
        unit_place=draw(st.sampled_from(["brackets", "row", "trailing"])),
        pressure=draw(st.sampled_from(["kPa", "hPa", "mbar", "bar", "psi", "inHg"])),
        kind=kind,
        says_kind=draw(st.booleans()),
        time=time,
        preamble=draw(st.integers(0, 3)),
        says_air=kind == "gauge" and draw(st.booleans()),
        says_engine=air == "stroke" and draw(st.booleans()),
        air=air,
        extra=draw(st.integers(0, 3)),
        twice=draw(st.booleans()),
        trailing=draw(st.booleans()),
        gaps=draw(st.sampled_from([0.0, 0.0, 0.1])) if dirty else 0.0,
        words_in_cells=draw(st.sampled_from([0.0, 0.0, 0.02])) if dirty else 0.0,
        repeats=draw(st.integers(0, 3)) if dirty else 0,
        back=draw(st.integers(0, 2)) if dirty else 0,
        torn=draw(st.booleans()) if dirty else False,
        blank=draw(st.integers(0, 2)) if time != "each" else 0,
        header_again=draw(st.booleans()) if dirty else False,
        seed=draw(st.integers(0, 1_000)),
    )


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(how=dialects(), seed=st.integers(0, 10_000), aim=st.floats(150.0, 260.0), air=st.floats(99.0, 103.0))
def test_a_random_run_in_a_random_dialect(how: Dialect, seed: int, aim: float, air: float) -> None:
    check(rendered(how, Drive(seed=seed, rows_a_second=4.0, pulls=1, aim=round(aim, 1), air_kpa=101.3)), how)


def test_the_run_is_a_part_of_a_job_that_the_reader_accepts() -> None:
    how = Dialect("de", 0, ";", True, "cp1252", gaps=0.1, repeats=3, back=2)
    run = read_log(rendered(how).data)
    job = {"format": "job/1", "id": "x", "tests": {"road": [run]}}
    read = read_job(json.dumps(job, allow_nan=False).encode())
    assert read["tests"]["road"][0]["channels"]["t_s"] == run["channels"]["t_s"]  # type: ignore[index]


def test_the_same_bytes_give_the_same_run() -> None:
    log = rendered(Dialect(time="clock", repeats=2))
    assert json.dumps(read_log(log.data)) == json.dumps(read_log(log.data))


TABLE = b"""Zeit;Wert A;Wert B;Drehzahl
s;mbar;;1/min
0,0;1012;5,5;850
0,5;1500;6,5;2000
1,0;2100;7,5;3000
"""


def test_columns_fix_what_no_word_tells() -> None:
    wish = {
        "boost_actual_kpa_abs": {"column": "Wert A", "unit": "mbar", "kind": "absolute"},
        "duty_pct": {"column": "wert b", "unit": "%"},
    }
    run = read_log(TABLE, wish)
    assert run["channels"] == {
        "t_s": [0.0, 0.5, 1.0],
        "engine_rpm": [850.0, 2000.0, 3000.0],
        "boost_actual_kpa_abs": [101.2, 150.0, 210.0],
        "duty_pct": [5.5, 6.5, 7.5],
    }
    certain = {guess["channel"]: guess["certainty"] for guess in run["guesses"]}
    assert certain["boost_actual_kpa_abs"] == certain["duty_pct"] == 1.0
    assert certain["engine_rpm"] < 1.0


def test_a_column_that_is_not_taken_is_named() -> None:
    left = read_log(TABLE)["left_out"]
    assert [item["column"] for item in left if item["what"] == "column"] == ["Wert A", "Wert B"]


@pytest.mark.parametrize(
    "wish",
    [
        {"boost": {"column": "Wert A"}},
        {"duty_pct": {"column": "Wert C"}},
        {"duty_pct": {"column": "Wert B", "unit": "parsec"}},
        {"duty_pct": {"column": "Wert A", "unit": "mbar"}},
        {"boost_actual_kpa_abs": {"column": "Wert A", "kind": "relative to the moon"}},
        {"duty_pct": "Wert B"},
        {"duty_pct": {"unit": "%"}},
    ],
)
def test_a_wish_that_cannot_be_met_is_said(wish: dict[str, object]) -> None:
    with pytest.raises(UnreadableLog, match="columns:"):
        read_log(TABLE, wish)


def test_a_channel_can_be_unwished() -> None:
    run = read_log(TABLE, {"engine_rpm": None, "duty_pct": {"column": "Wert B", "unit": "%"}})
    assert set(run["channels"]) == {"t_s", "duty_pct"}


def test_gauge_boost_is_made_absolute_by_the_best_air_pressure_known() -> None:
    head = b"Time [s],Engine speed [rpm],Boost pressure actual [kPa gauge]\n"
    rows = b"".join(b"%d,%d,%d\n" % (t, 0 if t < 5 else 3000, 0 if t < 5 else 120) for t in range(30))
    said = b"Barometric pressure: 94.0 kPa\n"
    sensor = b"Time [s],Engine speed [rpm],Boost pressure actual [kPa gauge],Barometric pressure [kPa]\n"
    column = b"".join(row + b",93\n" for row in rows.splitlines())

    def top(data: bytes, **facts: float) -> tuple[float, str]:
        run = read_log(data, **facts)  # type: ignore[arg-type]
        guess = next(g for g in run["guesses"] if g["channel"] == "boost_actual_kpa_abs")
        return max(run["channels"]["boost_actual_kpa_abs"]), guess["barometric_from"]

    assert top(said + head + rows, barometric_kpa_abs=90.0) == (210.0, "given")
    assert top(said + head + rows) == (214.0, "preamble")
    assert top(sensor + column) == (213.0, "column")
    assert top(head + rows) == (221.3, "assumed")


def test_an_absolute_sensor_at_rest_is_the_barometer_of_a_gauge_one() -> None:
    head = b"Time [s],Engine speed [rpm],Boost specified [kPa gauge],Boost actual [kPa abs]\n"
    rows = b"".join(
        b"%d,%d,%d,%d\n" % (t, 0 if t < 5 else 3000, 0 if t < 5 else 120, 95 if t < 5 else 214)
        for t in range(30)
    )
    run = read_log(head + rows)
    assert max(run["channels"]["boost_specified_kpa_abs"]) == 215.0
    assert (
        next(g for g in run["guesses"] if g["channel"] == "boost_specified_kpa_abs")["barometric_from"]
        == "at rest"
    )


def test_air_mass_a_stroke_needs_the_cylinders() -> None:
    data = b"Time [s],Engine speed [rpm],Air mass [mg/stroke]\n" + b"".join(
        b"%d,3000,1000\n" % t for t in range(9)
    )
    assert read_log(data, cylinders=4, displacement_l=2.0)["channels"]["air_mass_gps"][0] == 100.0
    run = read_log(data)
    assert "air_mass_gps" not in run["channels"]
    assert any("cylinders" in item["why"] for item in run["left_out"])


def test_a_clock_for_each_channel_is_laid_on_the_busiest_one() -> None:
    """Straight lines between neighbours at most 2 s apart, else null."""
    head = b"Time [s],Engine speed [rpm],Time [s],Boost pressure actual [kPa]\n"
    speed = [(t, 1000 + 100 * t) for t in range(10)]
    boost = [(0.5, 100.0), (2.5, 120.0), (6.5, 160.0), (7.5, 150.0)]
    rows = [
        b"%d,%d,%s\n" % (*speed[row], b"%.1f,%.1f" % boost[row] if row < len(boost) else b",")
        for row in range(len(speed))
    ]
    run = read_log(head + b"".join(rows))
    assert run["channels"]["t_s"] == [float(t) for t in range(10)]
    assert run["channels"]["boost_actual_kpa_abs"] == [
        None,
        105.0,
        115.0,
        None,
        None,
        None,
        None,
        155.0,
        None,
        None,
    ]


def test_whole_seconds_are_spread() -> None:
    rows = b"".join(b"12:00:%02d;%d;100\n" % (row // 4, 1000 + row) for row in range(40))
    run = read_log(b"Uhrzeit;Drehzahl [1/min];Ladedruck [kPa]\n" + rows)
    assert run["channels"]["t_s"][:6] == [0.0, 0.25, 0.5, 0.75, 1.0, 1.25]
    assert run["guesses"][0]["certainty"] < 0.7


def test_a_clock_passes_midnight() -> None:
    rows = b"23:59:58,900,100\n23:59:59,950,100\n00:00:00,990,101\n00:00:01,999,101\n"
    run = read_log(b"Time,Engine speed [rpm],Boost pressure [kPa]\n" + rows)
    assert run["channels"]["t_s"] == [0.0, 1.0, 2.0, 3.0]


def test_grouped_thousands_and_a_unit_behind_the_number() -> None:
    rows = b"0,0;1.500,5;1.013,2;20 %\n0,5;2.750,0;2.213,8;35 %\n1,0;3.100,0;2.213,8;35 %\n"
    run = read_log(b"Zeit [s];Drehzahl [1/min];Ladedruck [mbar];Pedal [%]\n" + rows)
    assert run["channels"]["engine_rpm"] == [1500.5, 2750.0, 3100.0]
    assert run["channels"]["boost_actual_kpa_abs"] == [101.32, 221.38, 221.38]
    assert run["channels"]["pedal_pct"] == [20.0, 35.0, 35.0]


def test_velocity_is_the_road_speed_and_of_two_one_is_taken() -> None:
    """Names of a type-approval run as an open package holds it; dyno and on-board side by side."""
    rows = b"".join(b"%d,%d,%d,%d\n" % (t, 2 * t, 2 * t + 1, 900 + 10 * t) for t in range(40))
    run = read_log(b"Time [sec],Dyno Velocity [km/h],OBD Velocity [km/h],OBD Engine Speed [rpm]\n" + rows)
    assert run["channels"]["vehicle_kmh"][:3] == [0.0, 2.0, 4.0]
    guess = next(each for each in run["guesses"] if each["channel"] == "vehicle_kmh")
    assert guess["certainty"] <= 0.5, "the other column would fit as well"
    assert [item["column"] for item in run["left_out"]] == ["OBD Velocity [km/h]"]
