"""The JSON that commands print and pages carry: keys, types and states of the contract."""
