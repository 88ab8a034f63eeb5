"""Pages of parts, packs and the transmitter."""
