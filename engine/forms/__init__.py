"""Garment forms: from named measures to pieces, joins and edges, each form a documented set."""
