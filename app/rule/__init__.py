"""The rule: the editing panel at the left of the window."""

from app.rule.rule import Rule

__all__ = ["Rule"]
