"""`python -m structcheck` is the `structcheck` command."""

import sys

from structcheck.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
