"""The report of a job: its request put together, from a document on disk or from what the workshop keeps."""

import hashlib
import os
from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from pathlib import Path

import calc
from api import limits, pictures
from api.job import LARGEST, NotWholeError, judged, photo_names
from api.pdf import process
from api.pdf.course import courses
from api.pdf.request import ReportRequest

LARGEST_PHOTO = 16 * 1024 * 1024
PHOTO_ENDINGS = frozenset({".jpg", ".jpeg", ".png"})

PhotoFinder = Callable[[str], bytes | None]


class UnreadableError(Exception):
    """The job cannot be made a report of; the message is one line for the person who asked."""


class NotDrawnError(Exception):
    """The report could not be drawn or written, for no fault of the job's."""


def prepare(
    job: str,
    *,
    form: str,
    made_at: str,
    paper: str = "a4",
    unit: str = "kPa",
    language: str = "en",
    workshop: dict[str, str] | None = None,
    photo: PhotoFinder,
    read_log: calc.LogReader | None = None,
) -> ReportRequest:
    """What the report of a job document is drawn from.

    `photo` gives the printed copy of a photo by its SHA-256, None where the photo is not at hand, and raises
    `pictures.UnreadableError` where it cannot be decoded. `read_log` gives the logs of road runs.
    Raises `api.job.NotWholeError` for a document that cannot be judged.
    """
    verdict = judged(job, unit=unit, language=language, read_log=read_log)
    document = calc.read_job(job.encode())
    photos, unreadable = _photos(photo_names(document), photo)
    return ReportRequest(
        job=job,
        verdict=verdict,
        form=form,
        paper=paper,
        unit=unit,
        made_at=made_at,
        language=language,
        workshop=workshop or {},
        photos=photos,
        unreadable=unreadable,
        courses=courses(document, read_log),
    )


def write(
    job: Path, output: Path, *, form: str, paper: str, unit: str, language: str, photos: Path | None = None
) -> None:
    """Write the report of the document in `job` to `output`; photos are looked for in the folder `photos`.

    The time in it is SOURCE_DATE_EPOCH where that is set, else now.

    Raises
    ------
    UnreadableError
        the document is not there, too large, or breaks the contract
    NotDrawnError
        the report could not be drawn, or not be written to `output`
    """
    originals = _by_hash(photos)
    try:
        request = prepare(
            _text_of(job),
            form=form,
            paper=paper,
            unit=unit,
            language=language,
            made_at=_now(),
            photo=lambda name: _printed(originals.get(name)),
        )
    except NotWholeError as reason:
        raise UnreadableError(str(reason)) from None
    _save(output, _drawn(request))


def _printed(original: Path | None) -> bytes | None:
    return None if original is None else pictures.copy_of(original.read_bytes(), pictures.PRINTED)


def _photos(names: Iterable[str], photo: PhotoFinder) -> tuple[dict[str, bytes], list[str]]:
    copies: dict[str, bytes] = {}
    unreadable = []
    for name in names:
        try:
            copy = photo(name)
        except pictures.UnreadableError:
            unreadable.append(name)
        else:
            copies |= {} if copy is None else {name: copy}
    return copies, unreadable


def _text_of(job: Path) -> str:
    try:
        if job.stat().st_size > LARGEST:
            raise UnreadableError(f"{job}: a job document holds at most {LARGEST // 1024 // 1024} MB")
        data = job.read_bytes()
    except OSError as problem:
        raise UnreadableError(f"{job}: {problem.strerror}") from None
    try:
        calc.read_job(data)  # names the first broken place, bytes that are no UTF-8 included
    except calc.BrokenDocument as broken:
        raise UnreadableError(f"{broken.pointer or job}: {broken.reason}") from None
    return data.decode()


def _by_hash(folder: Path | None) -> dict[str, Path]:
    if folder is None:
        return {}
    if not folder.is_dir():
        raise UnreadableError(f"{folder}: no such folder")
    return {hashlib.sha256(path.read_bytes()).hexdigest(): path for path in _pictures(folder)}


def _pictures(folder: Path) -> Iterable[Path]:
    for path in sorted(folder.iterdir()):
        if path.suffix.lower() in PHOTO_ENDINGS and path.is_file() and path.stat().st_size <= LARGEST_PHOTO:
            yield path


def _now() -> str:
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    moment = datetime.fromtimestamp(int(epoch), UTC) if epoch.isdecimal() else datetime.now(UTC)
    return moment.isoformat(timespec="seconds")


def _drawn(request: ReportRequest) -> bytes:
    try:
        return process.draw(request)
    except limits.ChildFailedError as failed:
        raise NotDrawnError(f"The report could not be drawn. {failed.why}") from None


def _save(output: Path, pdf: bytes) -> None:
    try:
        output.write_bytes(pdf)
    except OSError as problem:
        raise NotDrawnError(f"{output}: {problem.strerror}") from None
