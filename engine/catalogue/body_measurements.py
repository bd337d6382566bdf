"""The body measurements that our size charts have between them; a chart of hers may have others."""

from __future__ import annotations

BODY_MEASUREMENTS = (
    "head", "head_by_age", "neck", "shoulder", "cross_back", "chest", "waist", "hips",
    "armhole_depth", "back_waist_length", "back_hip_length", "upper_arm", "wrist", "arm_length",
    "neck_to_wrist")
