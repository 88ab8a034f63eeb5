"""The makers of rows: checks, tasks, limits, defects, notices, follow-ups, signals."""
