"""The three small programs: solids in soft light, lines as wide as a pen, and the shadow on the ground.

Written for GLSL 1.10, which every OpenGL since 2.0 takes.
"""

from __future__ import annotations

from PySide6.QtGui import QMatrix4x4, QOpenGLFunctions
from PySide6.QtOpenGL import QOpenGLShader, QOpenGLShaderProgram

from app.fold.gl import names
from app.fold.gl.context import NoOpenGLError

SOLID_VERTEX = """
attribute vec3 a_first;   // place
attribute vec3 a_second;  // normal
attribute vec2 a_third;   // texture coordinates
uniform mat4 u_clip;
uniform vec3 u_lamp;      // towards the lamp
varying vec2 v_at;
varying float v_light;
void main() {
    // Sky above and floor below; one wide lamp at the upper left; nothing shines back.
    float sky = 0.5 + 0.5 * a_second.y;
    float lamp = max(dot(a_second, u_lamp), 0.0);
    v_light = 0.66 + 0.16 * sky + 0.26 * lamp;
    v_at = a_third;
    gl_Position = u_clip * vec4(a_first, 1.0);
}
"""
SOLID_FRAGMENT = """
uniform sampler2D u_face;
uniform vec4 u_tone;   // plain colour, and how much of it lies over the face
uniform vec2 u_glass;  // how much light passes on, and how solid it is
uniform float u_bias;  // how much coarser than needed the face is read
varying vec2 v_at;
varying float v_light;
void main() {
    vec3 wood = mix(texture2D(u_face, v_at, u_bias).rgb, u_tone.rgb, u_tone.a);
#ifdef OVER
    vec2 beside = step(v_at, vec2(0.0)) + step(vec2(1.0), v_at);
    float lost = min(1.0, beside.x + beside.y);
    float line = step(0.5, fract(gl_FragCoord.x * 0.07 + gl_FragCoord.y * 0.07));
    wood = mix(wood, mix(vec3(0.96, 0.86, 0.82), vec3(0.66, 0.20, 0.12), line), lost);
#endif
    gl_FragColor = vec4(wood * v_light * u_glass.x, u_glass.y);
}
"""
LINE_VERTEX = """
attribute vec3 a_first;   // one end
attribute vec3 a_second;  // the other
attribute vec2 a_third;   // which end this corner is at, 0 or 1; which side of the line, -1 or 1
uniform mat4 u_clip;
uniform vec2 u_half;      // half the picture [px]
uniform vec2 u_pen;       // width [px]; how far before the solids it lies, in depth
uniform float u_near;
varying vec4 v_run;       // along and across [px], both times w; w; length [px]
void main() {
    vec4 a = u_clip * vec4(a_first, 1.0), b = u_clip * vec4(a_second, 1.0);
    if (a.w < u_near && b.w > u_near) a = mix(b, a, (b.w - u_near) / (b.w - a.w));
    if (b.w < u_near && a.w > u_near) b = mix(a, b, (a.w - u_near) / (a.w - b.w));
    vec2 run = (b.xy / b.w - a.xy / a.w) * u_half;
    float far = length(run);
    vec2 along = far > 0.001 ? run / far : vec2(1.0, 0.0);
    float wide = 0.5 * u_pen.x + 1.0;
    vec4 here = mix(a, b, a_third.x);
    float cap = 0.5 * u_pen.x * (2.0 * a_third.x - 1.0);
    vec2 off = along * cap + vec2(-along.y, along.x) * wide * a_third.y;
    here.xy += off / u_half * here.w;
    here.z -= u_pen.y * here.w;
    v_run = vec4(vec2(a_third.x * far + cap, a_third.y * wide) * here.w, here.w, far);
    gl_Position = here;
}
"""
LINE_FRAGMENT = """
uniform vec4 u_ink;
uniform vec4 u_casing;  // what lies below the ink, as wide as the pen; the ink is narrower
uniform vec3 u_line;    // width of the ink; length of a dash and of what follows it, none where it is 0 [px]
uniform vec2 u_pen;
varying vec4 v_run;
void main() {
    vec2 run = v_run.xy / v_run.z;
    float off = abs(run.y);
    float ink = u_ink.a * clamp(0.5 * u_line.x + 0.5 - off, 0.0, 1.0);
    if (u_line.y > 0.0) ink *= clamp(u_line.y - mod(run.x, u_line.y + u_line.z) + 0.5, 0.0, 1.0);
    float casing = (1.0 - ink) * u_casing.a * clamp(0.5 * u_pen.x + 0.5 - off, 0.0, 1.0);
    float all_ink = max(ink + casing, 0.001);
    gl_FragColor = vec4((u_ink.rgb * ink + u_casing.rgb * casing) / all_ink, all_ink);
}
"""
SHADE_VERTEX = """
attribute vec3 a_first;
attribute vec3 a_second;  // half the rectangle's sides, and how far its edge fades [mm]
attribute vec2 a_third;   // place from its middle [mm]
uniform mat4 u_clip;
varying vec2 v_at;
varying vec3 v_shape;
void main() {
    v_at = a_third;
    v_shape = a_second;
    gl_Position = u_clip * vec4(a_first, 1.0);
}
"""
SHADE_FRAGMENT = """
uniform vec4 u_ink;
varying vec2 v_at;
varying vec3 v_shape;
void main() {
    vec2 out_by = max(abs(v_at) - v_shape.xy + vec2(v_shape.z), 0.0) / v_shape.z;
    float left = clamp(1.0 - length(out_by), 0.0, 1.0);
    gl_FragColor = vec4(u_ink.rgb, u_ink.a * left * left * (3.0 - 2.0 * left));
}
"""
SOURCES = {  # vertex, fragment, and what is defined in both
    "solid": (SOLID_VERTEX, SOLID_FRAGMENT, ""),
    "over": (SOLID_VERTEX, SOLID_FRAGMENT, "OVER"),
    "line": (LINE_VERTEX, LINE_FRAGMENT, ""),
    "shade": (SHADE_VERTEX, SHADE_FRAGMENT, ""),
}
ROW = 32  # bytes of a row: eight floats
FIELDS = ((0, 3), (12, 3), (24, 2))  # of a row: first byte, numbers
ATTRIBUTES = ("a_first", "a_second", "a_third")


class Program:
    """A linked program; `set` takes floats by their uniform's name."""

    def __init__(self, vertex: str, fragment: str, define: str = "") -> None:
        """Raises NoOpenGLError where the driver does not take it."""
        self._program = QOpenGLShaderProgram()
        kinds = QOpenGLShader.ShaderTypeBit
        head = f"#define {define}\n" if define else ""
        done = self._program.addShaderFromSourceCode(kinds.Vertex, head + vertex)
        done = done and self._program.addShaderFromSourceCode(kinds.Fragment, head + fragment)
        for place, name in enumerate(ATTRIBUTES):
            self._program.bindAttributeLocation(name, place)
        if not (done and self._program.link()):
            raise NoOpenGLError(f"the display's OpenGL does not take the shaders ({self._program.log().strip()[:80]})")
        self._places: dict[str, int] = {}

    def use(self, gl: QOpenGLFunctions) -> None:
        """Draw with this one, from the rows in the buffer that is bound."""
        self._program.bind()
        for place, (offset, size) in enumerate(FIELDS):
            gl.glEnableVertexAttribArray(place)
            self._program.setAttributeBuffer(place, names.FLOAT, offset, size, ROW)

    def set(self, name: str, *values: float) -> None:
        """One to four floats."""
        place = self._place(name)
        if len(values) == 1:  # setUniformValue would take one number for a whole one
            self._program.setUniformValue1f(place, values[0])
        else:
            self._program.setUniformValue(place, *(float(value) for value in values))

    def set_matrix(self, name: str, matrix: QMatrix4x4) -> None:
        """A 4x4 matrix."""
        self._program.setUniformValue(self._place(name), matrix)

    def _place(self, name: str) -> int:
        if name not in self._places:
            self._places[name] = self._program.uniformLocation(name)
        return self._places[name]
