"""The order of work: steps, what comes before what, the search for the cheapest order."""
