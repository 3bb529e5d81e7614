"""Whatever stands anywhere in a document, or whatever bytes come: a result, or BrokenDocument."""

import copy
import json
from typing import Any

from hypothesis import assume, example, given
from hypothesis import strategies as st

from calc.errors import BrokenDocument, BrokenPlace
from calc.job import check_place, read_job
from tests.calc.test_job_places import GOOD
from tests.calc.test_job_reading import EXAMPLE, paths

PLACES = list(paths(EXAMPLE))
BYTES = json.dumps(EXAMPLE).encode()

json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=8,
)


def refusal(data: bytes) -> BrokenDocument | None:
    """The refusal of a document, None where it is read; every other error goes through."""
    try:
        read_job(data)
    except BrokenDocument as error:
        return error
    return None


def place_refusal(path: str, value: object) -> BrokenPlace | None:
    try:
        check_place(path, value)
    except BrokenPlace as error:
        return error
    return None


def one_line(error: BrokenDocument | BrokenPlace | None) -> bool:
    return error is None or (bool(error.reason) and error.reason.isprintable())


def put(document: Any, path: tuple[str | int, ...], value: object) -> None:
    for step in path[:-1]:
        document = document[step]
    document[path[-1]] = value


@given(st.sampled_from(PLACES), json_values)
def test_any_value_at_any_place_is_read_or_refused_by_name(
    path: tuple[str | int, ...], value: object
) -> None:
    document = copy.deepcopy(EXAMPLE)
    put(document, path, value)
    assert one_line(refusal(json.dumps(document).encode()))


@given(st.sampled_from(PLACES), st.sampled_from(PLACES))
def test_of_two_broken_places_the_one_written_first_is_named(
    one: tuple[str | int, ...], other: tuple[str | int, ...]
) -> None:
    assume(one[: len(other)] != other and other[: len(one)] != one)
    document = copy.deepcopy(EXAMPLE)
    for path in (one, other):
        put(document, path, float("nan"))
    first = min((one, other), key=PLACES.index)
    error = refusal(json.dumps(document).encode())
    assert error is not None
    assert error.pointer == "/" + "/".join(map(str, first))


@given(st.integers(0, len(BYTES) - 1))
def test_a_document_cut_short_anywhere_is_refused(length: int) -> None:
    assert refusal(BYTES[:length]) is not None


@given(st.integers(0, len(BYTES) - 1), st.binary(max_size=6), st.integers(0, 6))
@example(20, b'"\\ud800"', 0)
@example(0, b"\xef\xbb\xbf\xef\xbb\xbf", 0)
def test_bytes_put_anywhere_into_a_document_raise_nothing_else(
    at: int, put_in: bytes, taken_out: int
) -> None:
    assert one_line(refusal(BYTES[:at] + put_in + BYTES[at + taken_out :]))


@given(st.binary(max_size=60) | st.text('{}[]",:\\u0d8 1eE.-+nulltrfasNI', max_size=60).map(str.encode))
def test_any_bytes_at_all_raise_nothing_else(data: bytes) -> None:
    assert one_line(refusal(data))


@given(st.text('{}[]",: 1e-0tru\\d8', max_size=40))
def test_what_python_reads_as_json_is_never_called_no_json(text: str) -> None:
    """The one outside witness of JSON's grammar here: the standard library's own reader."""
    try:
        json.loads(text)
    except ValueError:
        return
    data = '{"format": "job/1", "id": "b1", "x": ' + text + "}"
    error = refusal(data.encode())
    assert error is None or not error.reason.startswith("not JSON")


@given(st.sampled_from([path for path, _ in GOOD]), json_values)
def test_any_value_of_an_operation_is_taken_or_refused_by_name(path: str, value: object) -> None:
    error = place_refusal(path, value)
    assert one_line(error)
    assert error is None or error.pointer.startswith(path)


@given(st.text('/~01abc"\\ud8', max_size=12), json_values)
def test_any_path_of_an_operation_is_taken_or_refused_by_name(path: str, value: object) -> None:
    assert one_line(place_refusal(path, value))
