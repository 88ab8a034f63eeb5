"""Which inputs a figure needs, where they come from and how sure they are."""
