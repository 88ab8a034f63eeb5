"""Motors, bench tables, wire and ratings."""
