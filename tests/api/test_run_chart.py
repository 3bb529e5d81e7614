"""The road run over time, before and after: which pulls are drawn, how they are told, no peak lost."""

import json
import re
from typing import Any

import pytest

import calc
from api import demo, report
from api.pdf.course import MOST_BLOCKS, courses, thinned
from tests.api.paper import MADE_AT, opened, rendered, tagged, text_of

TARGET, IDLE = 221.0, 110.0
MEANT = {"boost_specified_kpa_abs": "Aim hPa", "boost_actual_kpa_abs": "Boost hPa"}


def pull(over: float, count: int = 100) -> dict[str, list[float]]:
    """Three seconds at idle and a pull of ten that settles `over` its aim; a row each tenth of a second."""
    rows = [(n / 10, max(0, n - 30)) for n in range(count + 30)]
    rise = {step: min(1.0, step / 15) for _, step in rows}
    return {
        "t_s": [when for when, _ in rows],
        "engine_rpm": [1500.0 + 25 * step for _, step in rows],
        "pedal_pct": [100.0 if step else 10.0 for _, step in rows],
        "boost_specified_kpa_abs": [TARGET if step else IDLE for _, step in rows],
        "boost_actual_kpa_abs": [IDLE + rise[step] * (TARGET + over - IDLE) for _, step in rows],
        "duty_pct": [38.0 if step else 20.0 for _, step in rows],
    }


def logged() -> dict[str, Any]:
    """The demo job with a log in the run before the repair and in the one after it."""
    job = demo.document()
    for run, over in zip(job["tests"]["road"], (26.0, 1.0), strict=True):
        run["channels"] = pull(over)
    return job


def drawn(job: dict[str, Any], form: str, read_log: calc.LogReader | None = None) -> bytes:
    text = json.dumps(job)
    prepared = report.prepare(
        text, form=form, made_at=MADE_AT, photo=lambda _: None, unit="bar", read_log=read_log
    )
    return rendered(prepared)


def told(pdf: bytes) -> list[str]:
    """What is said of each chart of a run to who cannot see it."""
    with opened(pdf) as read:
        said = [str(node.Alt) for node in tagged(read) if str(node.S) == "/Figure"]
    return [one for one in said if one.startswith("Boost over time")]


def test_before_and_after_stand_beside_each_other() -> None:
    before, after = told(drawn(logged(), "customer"))
    assert re.search(r"Before the repair, pull 1; .*aimed 1\.209.*car says 1\.469.*gauge says 1\.48", before)
    assert re.search(r"After the repair, pull 1; .*aimed 1\.209.*car says 1\.219", after)


def test_the_technician_sees_every_pull() -> None:
    job = logged()
    run = job["tests"]["road"][0]["channels"]
    again = [when + 20 for when in run["t_s"]]
    for name, values in run.items():
        values.extend(again if name == "t_s" else list(values))
    assert len(told(drawn(job, "technical"))) == 3
    assert len(told(drawn(job, "customer"))) == 2


def test_a_log_that_is_a_file_is_drawn_and_summed_up() -> None:
    job = logged()
    read = {f"{number}" * 64: run.pop("channels") for number, run in enumerate(job["tests"]["road"], 1)}
    for name, run in zip(read, job["tests"]["road"], strict=True):
        run["log"] = {"sha256": name, "columns": MEANT}
    pdf = drawn(job, "technical", lambda name, _wish: {"channels": read[name]})
    assert len(told(pdf)) == 2
    text = text_of(pdf)
    assert "1500 to 3975 rpm (130)" in text
    assert "1" * 64 in text.replace(" ", "")
    assert told(drawn(job, "customer", lambda _name, _wish: None)) == []


def test_no_peak_is_lost_and_few_points_are_drawn() -> None:
    times = [n / 100 for n in range(10_000)]
    values: list[float | None] = [100.0] * len(times)
    values[4321], values[8765] = 250.0, 3.0
    points = thinned(times, values, range(len(times)), 0.0)
    assert [43.21, 250.0] in points
    assert [87.65, 3.0] in points
    assert len(points) <= 2 * MOST_BLOCKS + 2
    assert points == sorted(points)


@pytest.mark.parametrize("channels", [{}, {"t_s": []}, {"t_s": [0, 1], "engine_rpm": [None, None]}])
def test_a_run_without_a_course_has_no_chart(channels: dict[str, list[Any]]) -> None:
    job = demo.document()
    job["tests"]["road"][0]["channels"] = channels
    assert [pull for one in courses(job, None) for pull in one["pulls"]] == []
