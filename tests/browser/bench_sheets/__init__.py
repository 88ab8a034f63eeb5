"""The dimensioned drawings of the demo's build stories, drawn from its records."""
