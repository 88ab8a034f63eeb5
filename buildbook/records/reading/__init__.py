"""Files into records: found, composed, read, corrected, cached."""
