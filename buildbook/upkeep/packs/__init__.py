"""What the rules say of packs: their rows, their notes, and what is doubted of them."""
