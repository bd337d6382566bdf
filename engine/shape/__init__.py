"""A piece's outline in whole stitches and rows: schedules, curves, shoulders, caps, raglans."""
