"""Plans and series for drawings and charts, worked out."""
