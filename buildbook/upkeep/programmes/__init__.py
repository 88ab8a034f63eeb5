"""Programmes as they apply, and which of two intervals is weaker."""
