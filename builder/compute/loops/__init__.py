"""Batteries and wires as circuits: how batteries are joined, and what each way carries of a current."""
