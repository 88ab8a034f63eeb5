"""What all commands share with a terminal: options, screen, progress, wrong use."""
