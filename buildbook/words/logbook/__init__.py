"""Entries and alterations in words."""
