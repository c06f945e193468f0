"""What supply wires carry and lose at the worst corners of each pack."""
