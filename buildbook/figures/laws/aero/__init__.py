"""Air, rotors and wings."""
