"""The ledger folded into aircraft, stations, items and packs, as of a day."""
