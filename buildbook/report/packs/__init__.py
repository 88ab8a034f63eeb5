"""What is told of packs: their charge, their readings at rest, their health."""
