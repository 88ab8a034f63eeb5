"""What is no page: feeds, calendar, JSON, the map of the site."""
