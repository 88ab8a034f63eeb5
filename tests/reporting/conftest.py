"""Tests of this room write their logs with the builders of the rooms below."""

import sys
from pathlib import Path

for room in ("hangar", "upkeep"):
    sys.path.insert(0, str(Path(__file__).parents[1] / room))
