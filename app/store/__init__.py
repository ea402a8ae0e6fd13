"""The one document of the window: the project, its plan, what is selected, and the way back."""

from app.store.store import Store

__all__ = ["Store"]
