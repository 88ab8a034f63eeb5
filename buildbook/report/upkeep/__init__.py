"""What upkeep gives: rows, findings, jobs, programmes, and how bad each is."""
