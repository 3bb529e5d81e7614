"""The child process that draws one report: a request on standard input, the PDF on standard output."""

import sys

from api.limits import limit
from api.pdf.process import MEMORY, PROCESSOR_SECONDS
from api.pdf.render import render
from api.pdf.request import from_json

if __name__ == "__main__":
    limit(MEMORY, PROCESSOR_SECONDS)
    sys.stdout.buffer.write(render(from_json(sys.stdin.read())))
