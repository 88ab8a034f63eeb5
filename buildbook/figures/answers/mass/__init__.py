"""Mass, balance and what follows from both."""
