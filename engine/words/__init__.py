"""Every sentence that a reader of the site sees, by part of a page, made from typed facts."""
