"""What each kind of entry makes of the state, by subject."""
