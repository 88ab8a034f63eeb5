"""Units, places, problems and days: nothing of aircraft."""
