"""What may be shown to whom: the projection that pages are made from."""
