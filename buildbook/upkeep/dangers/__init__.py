"""What the records themselves show to be dangerous, whatever was looked at and passed."""
