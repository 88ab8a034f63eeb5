"""What records say of each other: names that must be known, files that must hold no secret."""
