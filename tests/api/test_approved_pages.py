"""Three pages beside their approved pictures: a summary, a proof of repair, a leak in German."""

import pytest
from PIL import Image, ImageChops

from tests.api.approved_pages import MOST_IN_A_CELL, MOST_IN_MEAN, PAGES, approved, differences, picture_of


@pytest.mark.parametrize("name", PAGES)
def test_a_page_looks_as_it_was_approved(name: str) -> None:
    mean, worst = differences(picture_of(name), approved(name))
    assert (mean <= MOST_IN_MEAN, worst <= MOST_IN_A_CELL) == (True, True), (mean, worst)


def test_a_page_that_slipped_by_a_line_or_lost_a_photo_is_seen() -> None:
    page = approved("summary")
    slipped = ImageChops.offset(page, 0, 4)
    bare = page.copy()
    bare.paste(Image.new("L", (80, 60), 255), (40, 430))
    for changed in (slipped, bare):
        mean, worst = differences(page, changed)
        assert mean > MOST_IN_MEAN or worst > MOST_IN_A_CELL
