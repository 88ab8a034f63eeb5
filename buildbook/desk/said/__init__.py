"""What the words behind a kind of entry say."""
