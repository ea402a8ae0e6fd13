"""Painting drawings with Qt: on the boards, on paper and into pictures."""
