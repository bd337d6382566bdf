"""The rim around the engine: reads source files, hands pages to the site builder, prints findings."""
