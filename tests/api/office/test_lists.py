"""Gauges, vehicle limits, prices, the trail."""

import csv
import io
import sqlite3
from contextlib import closing
from decimal import Decimal

import pytest

import calc
from api.office import quantities, sheet
from tests.security.hostile_inputs import CELLS, CELLS_OF_TWO
from tests.security.visitor import Visitor, Workshop

GAUGE = {
    "label": "Red 4 bar",
    "kind": "analogue",
    "read_to": "half",
    "span_from": "0",
    "span_to": "400",
    "class_pct": "1.6",
    "division_kpa": "10",
    "calibrated_on": "2026-03-02",
    "due_on": "2027-03-02",
}
LIMIT = {
    "make": "Own make",
    "model": "Saloon",
    "engine": "1.8 T",
    "quantity": "actuator_start_kpa",
    "least": "60",
    "most": "80",
    "source": "=HYPERLINK(manual), page 12",
}
PRICE = {"kind": "labour", "name": "Diagnosis", "unit": "hour", "price": "96.50", "tax_pct": "19"}


def test_a_registered_gauge_is_what_a_job_holds(owner: Visitor) -> None:
    assert owner.fill("/office/gauges", GAUGE).status_code == 302
    (held,) = owner.get("/api/workshop").json["gauges"]
    assert held["label"] == "Red 4 bar"
    job = {"format": "job/1", "id": "x", "gauges": [{"id": "g1", **held["gauge"]}]}
    assert calc.judge(job)["format"] == "verdict/1"
    assert held["gauge"]["span_kpa"] == [0, 400]


@pytest.mark.parametrize(
    ("due", "says"),
    [
        ("2027-03-02", "in date"),
        ("2026-12-25", "due in 30 days"),
        ("2026-12-26", "in date"),
        ("2026-11-25", "due in 0 days"),
        ("2026-11-24", "overdue for 1 days"),
        ("", "no due date"),
    ],
)
def test_the_register_warns_of_calibration(owner: Visitor, due: str, says: str) -> None:
    owner.fill("/office/gauges", GAUGE | {"due_on": due})
    assert says in owner.get("/office/gauges").text


@pytest.mark.parametrize(
    "wrong",
    [
        {"span_from": "400", "span_to": "0"},
        {"label": ""},
        {"class_pct": "x"},
        {"class_pct": "nan"},
        {"due_on": "soon"},
    ],
)
def test_a_gauge_that_cannot_be_is_not_kept(owner: Visitor, wrong: dict[str, str]) -> None:
    assert owner.fill("/office/gauges", GAUGE | wrong).status_code == 200
    assert owner.get("/api/workshop").json["gauges"] == []


def test_a_gauge_is_changed_and_retired(owner: Visitor) -> None:
    owner.fill("/office/gauges", GAUGE)
    assert "Another gauge has this label" in owner.fill("/office/gauges", GAUGE).text
    page = owner.get("/office/gauges").text
    address = page.split('href="/office/gauges/')[1].split('"')[0]
    assert owner.fill(f"/office/gauges/{address}", GAUGE | {"due_on": "2026-01-01"}).status_code == 302
    assert "overdue" in owner.get("/office/gauges").text
    owner.fill("/office/gauges", to=f"/office/gauges/{address}/retire")
    assert owner.get("/api/workshop").json["gauges"] == []
    assert "out of use" in owner.get("/office/gauges").text


@pytest.mark.parametrize("quantity", quantities.QUANTITIES, ids=lambda one: one.key)
def test_every_quantity_is_one_of_the_contracts(quantity: quantities.Quantity) -> None:
    value = quantities.value_of(quantity, Decimal(1), Decimal(2))
    calc.check_place(f"/spec/{quantity.key}", value)
    assert isinstance(value, float) == quantity.single


def test_a_limit_carries_its_source_and_who_typed_it(workshop: Workshop, owner: Visitor) -> None:
    workshop.signed_in("technician").fill("/office/limits", LIMIT)
    (engine,) = owner.get("/api/workshop").json["engines"]
    assert engine["spec"] == {"actuator_start_kpa": {"min": 60, "max": 80}}
    assert (
        engine["sources"]["actuator_start_kpa"]
        == "=HYPERLINK(manual), page 12 (typed by technician, 2026-11-25)"
    )


@pytest.mark.parametrize(
    "wrong",
    [
        {"least": "80", "most": "60"},
        {"least": "", "most": ""},
        {"least": "1e9"},
        {"source": ""},
        {"quantity": "x"},
    ],
)
def test_a_limit_that_cannot_be_is_not_kept(owner: Visitor, wrong: dict[str, str]) -> None:
    assert owner.fill("/office/limits", LIMIT | wrong).status_code == 200
    assert owner.get("/api/workshop").json["engines"] == []


def take_in(visitor: Visitor, data: bytes) -> tuple[int, str]:
    file = (io.BytesIO(data), "limits.csv")
    answer = visitor.fill("/office/limits", {"file": file}, to="/office/limits/take-in")
    return answer.status_code, answer.text


def test_the_library_goes_out_and_comes_in_again(owner: Visitor, workshop: Workshop, office: Visitor) -> None:
    owner.fill("/office/limits", LIMIT)
    owner.fill(
        "/office/limits",
        LIMIT | {"quantity": "vacuum_supply_kpa", "least": "", "most": "-0.35", "source": "-2+3"},
    )
    before = owner.get("/api/workshop").json["engines"]
    exported = owner.get("/office/limits.csv").data
    assert b"'=HYPERLINK" in exported
    assert b',-0.35,"\'-2+3",' in exported
    with closing(workshop.connect()) as connection:
        connection.execute("DELETE FROM vehicle_limits")
    assert take_in(office, exported)[0] == 302
    after = office.get("/api/workshop").json["engines"]
    assert [one["spec"] for one in after] == [one["spec"] for one in before]
    assert "typed by office" in after[0]["sources"]["vacuum_supply_kpa"]


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"\xff\xfe\x00", "not in UTF-8"),
        (b"make,model\r\na,b\r\n", "does not name these columns"),
        (b"", "does not name these columns"),
        (b"make,model,engine,quantity,least,most,source\r\na,b,c,nonsense,1,2,d\r\n", "Row 2"),
        (b"make,model,engine,quantity,least,most,source\r\na,b,c,vacuum_supply_kpa,,=1+1,d\r\n", "Row 2"),
        (b'make,model,engine,quantity,least,most,source\r\n"' + b"x" * 20_000, "not a table"),
        (
            b"make,model,engine,quantity,least,most,source\r\n" + b"a,b,c,vacuum_supply_kpa,,-1,d\r\n" * 5001,
            "more than 5000",
        ),
        (b"\0" * 50, "not a text"),
    ],
)
def test_a_file_that_is_wrong_changes_nothing(owner: Visitor, data: bytes, says: str) -> None:
    status, page = take_in(owner, data)
    assert status == 422
    assert says in page
    assert owner.get("/api/workshop").json["engines"] == []


@pytest.mark.parametrize(
    ("cell", "written"),
    [
        ("-0.35", "-0.35"),
        ("12", "12"),
        ("\tx", "'\tx"),
        ("plain", "plain"),
        ("", ""),
        *((cell, f"'{cell}") for cell in CELLS),
        *((cell, cell) for cell in CELLS_OF_TWO),
    ],
)
def test_text_that_looks_like_a_formula_is_quoted_and_numbers_are_not(cell: str, written: str) -> None:
    table = sheet.written(["a", "b"], [[cell, "x"]]).decode("utf-8-sig")
    assert list(csv.reader(io.StringIO(table, newline=""))) == [["a", "b"], [written, "x"]]
    semicolons = next(csv.reader(io.StringIO(table.partition("\n")[2], newline=""), delimiter=";"))
    assert semicolons[0].startswith(written)  # a German spreadsheet parts cells there
    assert sheet.read(sheet.written(["a", "b"], [[cell, "x"]]), ["a"], 9)[0]["a"] == cell


def test_prices_are_kept_exact(owner: Visitor) -> None:
    owner.fill("/office/prices", PRICE | {"price": "0.10"})
    owner.fill("/office/prices", PRICE | {"name": "Hose", "kind": "part", "price": "1234567.89"})
    page = owner.get("/office/prices").text
    assert ">0.10<" in page
    assert "1234567.89" not in page
    assert "Another line has this name" in owner.fill("/office/prices", PRICE).text


def test_the_trail_is_only_added_to(workshop: Workshop, owner: Visitor) -> None:
    owner.fill("/office/prices", PRICE)
    with closing(workshop.connect()) as connection:
        before = connection.execute("SELECT COUNT(*) FROM audit").fetchone()[0]
        for statement in ("DELETE FROM audit", "UPDATE audit SET name = 'x'"):
            with pytest.raises(sqlite3.IntegrityError, match="only added to"):
                connection.execute(statement)
        assert connection.execute("SELECT COUNT(*) FROM audit").fetchone()[0] == before > 0
    assert "kept a price" in owner.get("/office/trail").text
