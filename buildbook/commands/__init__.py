"""One thin module a command: read options, call, print, exit status."""
