"""Trees become parts and builds; names are followed."""
