// The soft shadow of a wall's foot; see src/render/renderer.h.

layout(location = 0) in vec3 corner;
layout(location = 1) in vec2 from_wall;   // Along the wall and inwards, mm.
layout(location = 2) in vec2 wall_size;
layout(location = 3) in vec4 run;         // Along x, y; inward x, y.

uniform mat4 view_projection;
uniform vec4 cut_plane;   // As in dress.glsl.
uniform vec2 drift;     // The wide part falls away from the light, mm in the world.

smooth out vec2 spot;
smooth out vec4 size;   // Length, thickness, drift along and across.

void main() {
  spot = from_wall;
  size = vec4(wall_size, dot(drift, run.xy), dot(drift, run.zw));
  gl_Position = view_projection * vec4(corner, 1.0);
  keepFrom(cut_plane.w + 0.01 - dot(cut_plane.xyz, corner));
}
