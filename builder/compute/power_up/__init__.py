"""First power-up: gates and what is read at them."""
