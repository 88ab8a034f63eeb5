"""Every sentence that is made of values, for page, terminal, feed, calendar and drawing."""
