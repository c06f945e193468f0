"""What the pages of the work share: needs of a step, facts, as built."""
