"""Benchleaf compiles one YAML file for a build, plus a shelf of parts, into a documented build
sheet.

The folders are the stages of the work, in this order; each knows only earlier ones:
diagnostics, load, model, compute, rules, pages, render, publish, pipeline, cli.
"""

__version__ = "0.1.0"
