"""One table of fields per kind of record: they drive reading, the schema and the reference."""
