"""One module per kind of page: the facts that its template shows, and its address."""
