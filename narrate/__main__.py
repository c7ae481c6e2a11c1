"""`python -m narrate` is the command `narrate`."""

import sys

from narrate.cli import main

sys.exit(main())
