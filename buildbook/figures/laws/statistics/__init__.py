"""Trends, counts, drift and quantiles."""
