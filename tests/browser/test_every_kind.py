"""Every test and check of the contract, for each kind of boost control: page, drawing, cautions, paper.

The contract's tables are `calc.vocabulary.NEXT_TESTS` and `calc.checks.CHECKS`; which kind has which test
is what the calculation proposes for it. A page that is missing fails here.
"""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page

from api.pdf.figures import Printer
from api.pdf.findings import ENDINGS
from api.pdf.readings import names_of, part
from api.pdf.readings import tests as noted_tests
from api.pdf.words import LANGUAGES, words_for
from calc import contract, vocabulary
from calc.checks import CHECKS, TEST_OF_CHECK
from calc.checks.evidence import Kind
from calc.faults.next_test import applies
from tests.browser.conftest import Server

KINDS = [(device, actuator) for device in vocabulary.DEVICES for actuator in vocabulary.ACTUATORS]
PAGES = """async ([device, actuator]) => {
  const document = { boost_control: { device, actuator, more_duty: "raises_boost" } };
  const { pagesFor } = await import("/parts/test_pages.js");
  const { testWords } = await import("/parts/test_words.js");
  const { drawingOf } = await import("/drawings/drawings.js");
  return pagesFor(document).map(({ id, tests, checks, drawing, fields = [], choices = [] }) => {
    const text = testWords(document, id);
    const picture = drawingOf(drawing, text.parts ?? [], document);
    const named = fields.map(([name]) => text.fields[name]).concat(choices.map((name) => text.choices[name]));
    return {
      id, tests, checks, named, title: text.title, connect: text.connect, cautions: text.cautions,
      drawing: picture.innerHTML, shapes: picture.querySelectorAll("path, rect, circle").length,
      labels: [...picture.querySelectorAll("text.small")].map((one) => one.textContent),
      parts: text.parts ?? [],
    };
  });
}"""
STATIONS = """async ([device, actuator, verdict]) => {
  const document = { boost_control: { device, actuator } };
  const { airLine } = await import("/parts/air_line_model.js");
  const { words } = await import("/words/words.js");
  const job = { document, judged: { verdict: null }, finding: () => null, value: () => undefined };
  const names = Object.values(words.air.stations);
  return airLine(job).map(({ id, label, page }) => ({ id, page, known: names.includes(label) }));
}"""


@pytest.fixture(scope="module", params=["en-GB", "de-DE"])
def page(browser: Any, standing_server: Server, request: pytest.FixtureRequest) -> Iterator[Page]:
    context = browser.new_context(locale=request.param)
    page = context.new_page()
    page.goto(f"{standing_server.url}/health")
    yield page
    context.close()


def proposed_for(device: str, actuator: str) -> set[str]:
    kind = Kind(device=device, actuator=actuator, arrangement="unknown", more_duty="raises_boost")
    return {test for test in vocabulary.NEXT_TESTS if applies(test, kind)}


def test_every_test_of_the_contract_belongs_to_a_kind() -> None:
    assert set().union(*(proposed_for(*kind) for kind in KINDS)) == set(vocabulary.NEXT_TESTS)


@pytest.mark.parametrize("kind", KINDS, ids="-".join)
def test_every_test_and_check_of_a_kind_has_its_page(page: Page, kind: tuple[str, str]) -> None:
    pages = page.evaluate(PAGES, list(kind))
    wanted = proposed_for(*kind)
    assert {test for one in pages for test in one["tests"]} == wanted
    checks = {check.name for check in CHECKS if TEST_OF_CHECK[check.name] in wanted}
    assert checks <= {check for one in pages for check in one["checks"]}


@pytest.mark.parametrize("kind", KINDS, ids="-".join)
def test_every_page_has_a_drawing_of_its_own_and_says_what_can_hurt(
    page: Page, kind: tuple[str, str]
) -> None:
    pages = page.evaluate(PAGES, list(kind))
    for one in pages:
        assert all((one["title"], one["connect"])), one["id"]
        assert one["shapes"] >= 4, one["id"]
        assert one["labels"] == one["parts"], f"{one['id']}: a word of the drawing has no place"
        assert one["cautions"], one["id"]
        assert all(one["cautions"]), one["id"]
        assert all(one["named"]), f"{one['id']}: a reading has no name"
    drawings = [one["drawing"] for one in pages]
    assert len(set(drawings)) == len(drawings)


def test_what_a_kind_does_otherwise_is_drawn_and_said_otherwise(page: Page) -> None:
    """Vacuum draws where pressure pushes; vanes stand where a gate does; a motor has no control line."""
    pages = {kind: {one["id"]: one for one in page.evaluate(PAGES, list(kind))} for kind in KINDS}
    pushed, drawn = pages["wastegate", "pressure"], pages["wastegate", "vacuum"]
    for name in ("actuator", "actuator_sweep", "solenoid_sweep"):
        assert pushed[name]["drawing"] != drawn[name]["drawing"]
        assert pushed[name]["connect"] != drawn[name]["connect"]
        assert pushed[name]["cautions"] != drawn[name]["cautions"]
    vanes = pages["variable_geometry", "vacuum"]
    assert vanes["actuator"]["drawing"] != drawn["actuator"]["drawing"]
    assert not {"actuator", "actuator_sweep", "solenoid", "solenoid_sweep"} & set(
        pages["wastegate", "electric"]
    )


@pytest.mark.parametrize("kind", KINDS, ids="-".join)
def test_the_air_line_has_the_stations_of_the_kind(page: Page, kind: tuple[str, str]) -> None:
    device, actuator = kind
    stations = page.evaluate(STATIONS, [device, actuator, None])
    assert all(one["known"] and one["page"] for one in stations)
    control = [one["id"] for one in stations][9:]
    assert (
        control
        == {
            "pressure": ["solenoid", "actuator"],
            "vacuum": ["vacuum", "solenoid", "actuator"],
            "electric": ["motor"],
        }[actuator]
    )
    pages = {one["id"] for one in page.evaluate(PAGES, list(kind))}
    assert {one["page"] for one in stations} <= pages


def filled(kind: Any) -> Any:
    """A value of each form, for every key that the contract knows in a test."""
    if isinstance(kind, contract.Items):
        return [filled(kind.item)]
    if isinstance(kind, contract.Group):
        return {key: filled(member) for key, member in kind.members.items()}
    if isinstance(kind, contract.Word):
        return kind.words[0]
    return {contract.Flag: True, contract.GaugeId: "g1", contract.Number: 1.5}.get(type(kind), "x")


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_reading_of_every_test_has_its_row_on_paper(language: str) -> None:
    """The rows are those of both forms, the customer's and the technical one."""
    bench = {key: filled(group) for key, group in contract.TESTS.members.items() if key != "road"}
    job = {"id": "j", "gauges": [{"id": "g1"}], "tests": bench}
    printer = Printer("bar", words_for(language))
    sections = noted_tests(job, names_of(job, printer))
    assert len(sections) == len(bench)
    for (name, group), section in zip(
        sorted(bench.items(), key=lambda one: list(printer.words.sections).index(one[0])),
        sections,
        strict=True,
    ):
        assert section.title == printer.words.sections[name]
        readings = sum(1 for given in group.values() if not isinstance(given, (list, dict)))
        assert len(section.rows) >= readings, name
        assert all(label and text for label, text in section.rows), name
    site = part({"site": {"sea_level_kpa_abs": 101.6}}, "site", names_of(job, printer))
    assert [text for _, text in site.rows] == [printer.figure("sea_level_kpa_abs", 101.6)]


def test_every_unit_of_a_check_is_printed() -> None:
    plain = {"flag", "mm/kPa", "ratio", "kPa or pct"}
    assert {check.unit for check in CHECKS} - plain <= set(ENDINGS)
