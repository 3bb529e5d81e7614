"""The pages of the tests: what is tapped there stands in the document; every test has a page."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from calc import vocabulary
from calc.checks import TEST_OF_CHECK
from tests.browser.technician import MINUS, Technician

DESCRIBED = """async () => {
  const { TEST_PAGES } = await import("/parts/test_pages.js");
  return TEST_PAGES.map(({ tests, checks }) => ({ tests, checks }));
}"""
TESTS = """async () => {
  const { openWorkbook } = await import("/store/workbook.js");
  return (await openWorkbook()).jobs()[0].document.tests;
}"""
# Gauge 0 to 4 bar, class 1.6, division 0.1 bar, and a car whose unplugged solenoid gives the least boost.
GAUGE = {"kind": "analogue", "span_kpa": [0, 400], "class_pct": 1.6, "division_kpa": 10, "read_to": "half"}
PREPARE = """async (gauge) => {
  const { openWorkbook } = await import("/store/workbook.js");
  const workbook = await openWorkbook();
  const id = await workbook.newJob({ places: {
    "/vehicle/registration": "EX 1",
    "/boost_control/device": "wastegate", "/boost_control/actuator": "pressure",
    "/boost_control/more_duty": "raises_boost", "/spec/actuator_full_kpa": { min: 60, max: 70 },
  } });
  await workbook.job(id).add("/gauges", gauge, { id: "g1" });
  return id;
}"""


@pytest.fixture(scope="module")
def hand(browser: Any, standing_server: Any) -> Iterator[Technician]:
    context = browser.new_context(locale="en-GB", viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    page.goto(f"{standing_server.url}/health")
    job = page.evaluate(PREPARE, GAUGE)
    page.goto(f"{standing_server.url}/#/job/{job}")
    hand = Technician(page)
    hand.is_at("EX 1")
    yield hand
    context.close()


def at(hand: Technician, page_id: str) -> None:
    job = hand.page.url.partition("#/job/")[2].split("/")[0]
    hand.page.evaluate("(hash) => { location.hash = hash; }", f"#/job/{job}/{page_id}")
    expect(hand.page.locator("main .connect")).to_be_visible()


def kept_tests(hand: Technician) -> Any:
    expect(hand.page.locator(".kept")).not_to_contain_text("keeping")
    return hand.page.evaluate(TESTS)


def test_every_test_and_check_has_a_page(hand: Technician) -> None:
    described = hand.page.evaluate(DESCRIBED)
    paged = [test for page in described for test in page["tests"]]
    assert sorted(paged) == sorted(vocabulary.NEXT_TESTS)
    spoken = {check for page in described for check in page["checks"]}
    assert spoken == set(TEST_OF_CHECK)


@pytest.mark.parametrize(
    ("page_id", "typed", "kept"),
    [
        (
            "intake_depression",
            {"Depression": f"{MINUS}0.025", "Engine speed": "4500"},
            {"p_kpa": -2.5, "engine_rpm": 4500},
        ),
        (
            "exhaust_back_pressure",
            {"Back pressure": "0.12", "Engine speed": "3000"},
            {"p_kpa": 12, "engine_rpm": 3000},
        ),
        (
            "cooler_drop",
            {"Before the cooler": "1.12", "After the cooler": "1.04"},
            {"before_kpa": 112, "after_kpa": 104},
        ),
        ("bypass_valve", {"Holds up to": "1.3"}, {"hold_kpa": 130}),
    ],
)
def test_a_reading_on_a_gauge(
    hand: Technician, page_id: str, typed: dict[str, str], kept: dict[str, float]
) -> None:
    at(hand, page_id)
    for label, figure in typed.items():
        hand.read(label, figure)
    hand.leave_pad()
    assert kept_tests(hand)[page_id] == kept | {"gauge": "g1"}


@pytest.mark.parametrize(
    ("page_id", "answers", "kept"),
    [
        ("throttle", {"Opens all the way": "yes"}, {"opens_fully": True}),
        ("exhaust_leak", {"Soot or hiss": "no"}, {"soot_or_hiss": False}),
        ("egr", {"Shuts all the way": "no"}, {"closes": False}),
        (
            "wastegate_inspection",
            {"Seats all round": "yes", "Cracked": "no"},
            {"seats": True, "damage": False},
        ),
        (
            "engine_health",
            {"Fuel pressure in order": "yes", "Misfires": "no", "Compression even": "yes"},
            {"fuel_pressure_in_order": True, "misfire": False, "compression_even": True},
        ),
    ],
)
def test_yes_and_no(hand: Technician, page_id: str, answers: dict[str, str], kept: dict[str, bool]) -> None:
    at(hand, page_id)
    for question, answer in answers.items():
        hand.choose(question, answer)
    assert kept_tests(hand)[page_id] == kept


def test_the_solenoid_step_by_step(hand: Technician) -> None:
    at(hand, "solenoid_sweep")
    hand.choose("Duty set by", "a bench driver")
    hand.read("Pressure fed in", "0.8")
    hand.read("At 0 % duty", "0.79")
    for _ in range(4):
        hand.tap("Skip")
    hand.read("At 100 % duty", "0.05")
    hand.leave_pad()
    solenoid = kept_tests(hand)["solenoid"]
    rows = [{key: row[key] for key in ("duty_pct", "supply_kpa", "control_kpa")} for row in solenoid["sweep"]]
    assert rows == [
        {"duty_pct": 0, "supply_kpa": 80, "control_kpa": 79},
        {"duty_pct": 100, "supply_kpa": 80, "control_kpa": 5},
    ]
    assert (solenoid["driven_by"], solenoid["gauge"]) == ("bench", "g1")


def test_the_actuator_step_by_step(hand: Technician) -> None:
    """Up in steps of 0.2 bar past the end of the limit, then down: the pad says which comes next."""
    at(hand, "actuator_sweep")
    hand.go_on()
    for figure in ("0", "0", "0.5", "4", "8", "8", "4.5"):
        for key in figure:
            hand.tap({".": "Decimal point"}.get(key, key))
        hand.page.locator(".keep").click()
    hand.leave_pad()
    sweep = kept_tests(hand)["actuator"]["sweep"]
    assert [(row["p_kpa"], row["travel_mm"], row["direction"]) for row in sweep] == [
        (0, 0, "rising"),
        (20, 0, "rising"),
        (40, 0.5, "rising"),
        (60, 4, "rising"),
        (80, 8, "rising"),
        (100, 8, "rising"),
        (80, 4.5, "falling"),
    ]
    expect(hand.page.locator("main figure.picture svg")).to_be_visible()


def test_a_base_boost_run(hand: Technician) -> None:
    at(hand, "base_boost_run")
    hand.tap("through the unplugged solenoid")
    hand.choose("Who reads?", "a second person")
    hand.go_on()
    hand.read("gauge says", "0.72")
    hand.leave_pad()
    (run,) = kept_tests(hand)["road"]
    assert (run["control"], run["read_by"], run["readings"][0]["p_kpa"]) == (
        "solenoid_unplugged",
        "second",
        72,
    )


def test_the_next_test_of_a_verdict_leads_to_its_page(
    new_page: Callable[..., Page], standing_server: Any
) -> None:
    page = new_page(standing_server)
    job = page.evaluate(PREPARE, GAUGE)
    page.goto(f"{standing_server.url}/#/job/{job}/verdict")
    following = page.locator('footer [data-key="next test"]')
    following.wait_for(timeout=120_000)
    title = following.locator("span").first.inner_text()
    following.click()
    Technician(page).is_at(title)
