"""Runs of wire: what flows in each, what is lost, and what plugs and sensors carry."""
