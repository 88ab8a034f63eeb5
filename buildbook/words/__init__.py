"""Every sentence that is made of values: amounts, days, states, reasons, figures."""
