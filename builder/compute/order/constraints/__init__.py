"""What comes before what in the order of work, and why."""
