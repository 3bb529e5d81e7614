"""A generated job with its estimate, drawn, and what its report lacks of it."""

from tests.api.paper import (
    drawn,
    missing_numbers,
    missing_words,
    no_leftovers,
    request_for,
    sentences_of,
    text_of,
)
from tests.api.priced import shown_of, with_estimate
from tests.generated_jobs import generated_job


def lacks_of(seed: int) -> list[str]:
    """What the technician's report of this seed's job does not show: readings, limits, sentences, prices."""
    job, unit = generated_job(seed)
    job = with_estimate(job, seed)
    pdf = drawn(job, unit=unit)
    text = text_of(pdf)
    said = sentences_of(request_for(job, unit=unit).findings)
    lacking = [f"{key} {value}" for key, value in missing_numbers(job, text, unit)]
    lacking += missing_words([*said, *shown_of(job)], pdf)
    return lacking if no_leftovers(text) else [*lacking, "a word of the machine shows"]
