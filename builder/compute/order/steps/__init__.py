"""The steps of the order of work: what each does, and all of them in the usual order."""
