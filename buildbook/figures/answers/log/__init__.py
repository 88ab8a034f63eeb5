"""What the log adds up to: wear, failures, cost, drift."""
