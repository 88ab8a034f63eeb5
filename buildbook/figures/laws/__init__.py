"""Physics and statistics: plain numbers in and out, with valid range and source."""
