"""Series and amounts as charts."""
