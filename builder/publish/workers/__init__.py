"""Who does the jobs, and within which bounds."""
