"""Time in the air: predicted and flown."""
