"""Joints: where they are, what heat they take, how their ends lie."""
