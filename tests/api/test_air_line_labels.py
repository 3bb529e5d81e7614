"""Names on the air line fit in their places, measured by FreeType with the report's own font."""

import pytest
from PIL import ImageFont

from api.pdf import airline
from api.pdf.render import FONT_FOLDER, FONTS
from api.pdf.words import LANGUAGES, words_for

BOLD = ImageFont.truetype(FONT_FOLDER / FONTS["bold.ttf"], 110)  # ten times the size of a drawing's text
STATIONS = {one.name: one for one in vars(airline).values() if isinstance(one, airline.Station)}
LEAST_GAP = 4.0


def room_of(station: airline.Station, stations: tuple[airline.Station, ...]) -> float:
    """Half of what a name may take: to the edge of the drawing, or half the way to its neighbour."""
    beside = [abs(one.x - station.x) for one in stations if one.y == station.y and one is not station]
    return min(station.x, airline.WIDTH - station.x, (min(beside) - LEAST_GAP) / 2)


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("customer", [False, True])
@pytest.mark.parametrize("device", ["wastegate", "variable_geometry"])
@pytest.mark.parametrize("actuator", ["pressure", "vacuum", "electric"])
def test_every_name_fits_its_place_in_bold(language: str, customer: bool, device: str, actuator: str) -> None:
    stations = airline.stations_of({"device": device, "actuator": actuator})
    names = {one: words_for(language).stations[one.name][customer] for one in stations}
    too_long = [
        (name, half, room_of(one, stations))
        for one, name in names.items()
        if (half := BOLD.getlength(name) / 20) > room_of(one, stations)
    ]
    assert too_long == []
