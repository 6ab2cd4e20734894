"""`python -m fieldbook`."""

import sys

from fieldbook.cli import main

sys.exit(main())
