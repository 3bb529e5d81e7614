"""Documents that break the contract: the place and the reason that are named."""

import json
from pathlib import Path
from typing import Any

import pytest

from calc.contract import MAX_BYTES
from calc.errors import BrokenDocument
from calc.job import check_job, read_job

BROKEN = Path(__file__).resolve().parents[2] / "fixtures" / "broken"
INDEX = json.loads((BROKEN / "index.json").read_text(encoding="utf-8"))["broken"]


def place_and_reason(data: bytes) -> tuple[str, str]:
    with pytest.raises(BrokenDocument) as caught:
        read_job(data)
    assert str(caught.value) == f"{caught.value.pointer}: {caught.value.reason}"
    return caught.value.pointer, caught.value.reason


@pytest.mark.parametrize("broken", INDEX, ids=lambda broken: broken["file"])
def test_a_broken_document_is_refused_at_its_first_broken_place(broken: dict[str, str]) -> None:
    named = place_and_reason((BROKEN / broken["file"]).read_bytes())
    assert named == (broken["pointer"], broken["reason"])


def test_every_broken_document_stands_in_the_index() -> None:
    kept = {path.name for path in BROKEN.iterdir()} - {"index.json", "README.md"}
    assert kept == {broken["file"] for broken in INDEX}
    assert len(kept) >= 45


@pytest.mark.parametrize(
    ("rest", "pointer", "column"),
    [
        (b'"technician": "M\xfcller"}', "/technician", 49),
        (b'"na\xffme": 1}', "", 36),
        (b'"tests": {"road": [{}, \xfe', "/tests/road/1", 56),
        (b'"site": {}} \xff', "", 45),
    ],
)
def test_bytes_that_are_not_utf8_are_refused_at_their_place(rest: bytes, pointer: str, column: int) -> None:
    named = place_and_reason(b'{"format": "job/1", "id": "b1", ' + rest)
    assert named == (pointer, f"not UTF-8 text (line 1, column {column})")


def test_a_break_before_the_bytes_that_are_not_utf8_is_named_first() -> None:
    assert place_and_reason(b'{"format": "job/1", "id": 5, "x": "\xff"}') == ("/id", "5 where text belongs")


def test_a_document_in_utf16_is_refused() -> None:
    named = place_and_reason('{"format": "job/1", "id": "b1"}'.encode("utf-16"))
    assert named == ("", "not UTF-8 text (line 1, column 1)")


def test_a_document_over_64_mb_is_refused_and_one_of_64_mb_is_read() -> None:
    document = b'{"format": "job/1", "id": "b1"}'
    assert read_job(document.ljust(MAX_BYTES))["id"] == "b1"
    assert place_and_reason(document.ljust(MAX_BYTES + 1)) == ("", "larger than 64 MB")


def test_64_levels_are_read_and_65_are_refused() -> None:
    def nested(levels: int) -> bytes:
        return b'{"format": "job/1", "id": "b1", "x": ' + b"[" * (levels - 1) + b"]" * (levels - 1) + b"}"

    assert "x" in read_job(nested(64))
    pointer, reason = place_and_reason(nested(65))
    assert pointer == "/x" + "/0" * 63
    assert reason.startswith("nested deeper than 64 levels")


@pytest.mark.parametrize("opening", [b"[", b'{"a":', b'[{"a":[', b'{"]":'])
def test_a_million_levels_are_refused_without_a_fault(opening: bytes) -> None:
    _, reason = place_and_reason(b'{"format": "job/1", "id": "b1", "x": ' + opening * 1_000_000)
    assert reason.startswith("nested deeper than 64 levels")


def test_brackets_within_text_are_no_levels() -> None:
    text = '[{"\\' * 100
    document = {"format": "job/1", "id": "b1", "technician": text, text: [text]}
    assert read_job(json.dumps(document).encode()) == document


def test_a_whole_number_of_millions_of_digits_is_refused_by_its_length() -> None:
    data = b'{"format": "job/1", "id": "b1", "x": ' + b"7" * 5_000_000 + b"}"
    assert place_and_reason(data) == (
        "/x",
        "not a finite number: a whole number of 5000000 digits is too large",
    )


def broken_in_memory() -> list[tuple[str, Any]]:
    endless: list[Any] = []
    endless.append(endless)
    return [
        ("/x", float("nan")),
        ("/x", 10**400),
        ("/x", 10**5000),
        ("/x", {1, 2}),
        ("/x", b"bytes"),
        ("/x", {5: "a number for a name"}),
        ("/x" + "/0" * 63, endless),
    ]


def test_a_parsed_document_is_held_to_the_same_contract() -> None:
    for pointer, value in broken_in_memory():
        with pytest.raises(BrokenDocument) as caught:
            check_job({"format": "job/1", "id": "b1", "x": value})
        assert caught.value.pointer == pointer
