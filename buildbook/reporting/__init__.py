"""The functions that work reports out, once, from the whole truth, and the door to them."""
