"""Jobs, checks, programmes and standings, worked out."""
