"""What upkeep has to say of the records themselves."""
