"""Single faults of joints, what each would change, and by which readings one is told from another."""
