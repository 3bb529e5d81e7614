"""The child process that draws one report: a request on standard input, the PDF on standard output."""

import sys

from api.limits import limit_memory
from api.pdf.process import MEMORY
from api.pdf.render import render
from api.pdf.request import from_json

if __name__ == "__main__":
    limit_memory(MEMORY)
    sys.stdout.buffer.write(render(from_json(sys.stdin.read())))
