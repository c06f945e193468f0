"""Pages of the site: builds, parts, references, cards."""
