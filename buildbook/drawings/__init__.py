"""Drawings: numbers and names in, SVG text out, coloured by the classes of `drawings.css`.

Each drawing has a title, a description and a `..._table` with the same facts. Only `charts` needs
matplotlib; nothing here imports it for the others.
"""
