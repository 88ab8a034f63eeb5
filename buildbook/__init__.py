"""A logbook for builders of radio-controlled aircraft: plain records in, a browsable site out."""

__version__ = "0.1.0"
