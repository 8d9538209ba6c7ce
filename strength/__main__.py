"""`python -m strength`."""

import sys

from strength.cli import main

if __name__ == "__main__":
    sys.exit(main())
