"""Tests of this room write their hangars as a keeper does."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
