"""Generated jobs on paper: every reading, limit, sentence of the verdict and price; 200 in the long run."""

import pytest

from tests.api.generated_reports import lacks_of


@pytest.mark.parametrize("seed", range(100, 110))
def test_generated_jobs_are_printed_whole(seed: int) -> None:
    assert lacks_of(seed) == []
