"""The child process that draws reports: requests come in, PDFs go out, until nobody asks any more."""

from api.limits import allow, limit
from api.pdf.process import IDLE_SECONDS, MEMORY, PROCESSOR_SECONDS
from api.pdf.render import look, render
from api.pdf.request import from_json
from api.standing import answer

if __name__ == "__main__":
    limit(MEMORY)
    look()
    answer(lambda given: render(from_json(given.decode())), lambda: allow(PROCESSOR_SECONDS), IDLE_SECONDS)
