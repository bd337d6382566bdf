"""The rim around the engine: reads files, hands pages to the site builder, prints findings."""
