"""Has the graphics driver loaded by a thread, before the window asks for a context.

Making the first context of a process loads the driver, which takes longer than three frames, and Qt's own call keeps
the interpreter for itself meanwhile. Calls through ctypes do not: asked over a connection of its own which pictures the
display can draw, the system loads the driver while the window goes on. No Qt here.
"""

from __future__ import annotations

import ctypes

X11, GLX = "libX11.so.6", "libGL.so.1"


def load_driver() -> bool:
    """Load it, for an X display (the one in DISPLAY). False where there is none, or nothing to load: no harm done."""
    try:
        x11, glx = ctypes.CDLL(X11), ctypes.CDLL(GLX)
        x11.XOpenDisplay.restype = glx.glXGetFBConfigs.restype = ctypes.c_void_p
    except (OSError, AttributeError):
        return False
    display = ctypes.c_void_p(x11.XOpenDisplay(None))
    if display.value is None:
        return False
    count = ctypes.c_int()
    found = ctypes.c_void_p(glx.glXGetFBConfigs(display, x11.XDefaultScreen(display), ctypes.byref(count)))
    if found.value is not None:
        x11.XFree(found)
    x11.XCloseDisplay(display)
    return found.value is not None
