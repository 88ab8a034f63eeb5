"""Days, months, lengths, intervals and figures' values in words."""
