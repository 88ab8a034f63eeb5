"""Tests of this room write their logs with the builder of the room below."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "hangar"))
