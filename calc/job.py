"""The doors of a job document: it is read strictly, or refused with its first broken place named."""

from collections.abc import Mapping
from typing import cast

from calc.contract import JOB
from calc.errors import BrokenDocument
from calc.places import ITEM_LISTS, check_place, names_item
from calc.strict_json import Pairs, TornList, parse
from calc.walk import Walk, members_of

__all__ = ["ITEM_LISTS", "check_job", "check_place", "names_item", "read_job", "without_nulls"]


def read_job(data: bytes) -> dict[str, object]:
    """Read a job document from its bytes.

    The result is free of null wherever the contract knows a value: null members are left out, of plain lists
    of text too; a bare number where a limit belongs and is allowed (`supply_drop_v`) becomes its `max`.
    Positions never shift: null stays as a gap in channels and in `gear_ratios`, and as an item of a list of
    items (readings, runs, gauges), where whoever goes through the list must pass over it. Keys that the
    contract does not know are kept as they are. Text that holds half a surrogate pair gets U+FFFD for it.

    Raises
    ------
    BrokenDocument
        names the first broken place in document order
    """
    document, behind = parse(data)
    job = _walked(document)
    if behind:
        raise BrokenDocument("", behind)
    return job


def without_nulls(job: Mapping[str, object]) -> dict[str, object]:
    """Return what `read_job` would give for a document that is parsed already; the document stays as it is.

    Raises BrokenDocument as `read_job` does.
    """
    return _walked(job)


def check_job(job: Mapping[str, object]) -> None:
    """Raise BrokenDocument where a document that is parsed already breaks the contract."""
    _walked(job)


def _walked(document: object) -> dict[str, object]:
    walk = Walk(_gauge_ids(document))
    job = walk.read(document, JOB)
    if job is None:
        walk.fail("null where an object {…} belongs")
    return cast(dict[str, object], job)


def _gauge_ids(document: object) -> set[str] | None:
    """Collect the ids of the gauges, wherever in the document they stand; None where they may be cut off."""
    lists = [member for name, member in members_of(document) if name == "gauges"]
    torn = isinstance(document, Pairs) and document.torn
    if torn and (not lists or isinstance(lists[-1], TornList)):
        return None
    items = [item for gauges in lists if isinstance(gauges, list) for item in gauges]
    ids = [member for item in items for name, member in members_of(item) if name == "id"]
    return {gauge_id for gauge_id in ids if isinstance(gauge_id, str)}
