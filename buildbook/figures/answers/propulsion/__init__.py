"""Thrust, hover, and what the parts between pack and air carry."""
