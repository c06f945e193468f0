"""Sources that a person does not write by hand alone: parts asked for, lists taken in, reports."""
