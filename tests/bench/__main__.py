"""``python3 -m tests.bench [--only NAME]``: starts inside a complete environment."""

import sys

from api import bootstrap

if __name__ == "__main__":
    try:
        bootstrap.enter("tests.bench", sys.argv[1:], extra="tests")
    except bootstrap.NotReady as reason:
        sys.exit(str(reason))
    from tests.bench.command import main

    sys.exit(main(sys.argv[1:]))
