"""A programme laid over the hangar: what is stale, due, grounded, expected when."""
