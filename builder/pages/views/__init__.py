"""The aircraft as it looks: to scale from above and from the side, its stack, and a picture a step."""
