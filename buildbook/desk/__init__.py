"""The rooms that write records: begin and enter."""
