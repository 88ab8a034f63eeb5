"""Mass, balance, and the place of the rotors."""
