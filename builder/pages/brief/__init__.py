"""What the short sheet shows of each page of a build: one picture or one table, and the way on."""
