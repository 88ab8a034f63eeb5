"""What was found of aircraft and packs, in words: readings, dangers, what sets a pack aside."""
