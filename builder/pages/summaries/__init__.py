"""What pages over all builds need of one build."""
