"""What is made from records and their declarations: schema, reference, seal."""
