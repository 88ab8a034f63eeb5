"""Pages in a real browser. A package, so that the browser is shut when its last test is done."""
