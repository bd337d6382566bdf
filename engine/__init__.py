"""Walebook's sizing engine: pattern sources in, knitted and proved pages out.

Pure: no module in this package opens a file, reads a clock or knows a site builder.
Read the stages in order: source, model, grade, plan, program, bed, pages.
"""
