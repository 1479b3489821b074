// The soft shadow of a wall's foot: a rectangle on the floor, wider than the wall by the shadow's reach.

layout(location = 0) in vec4 foot;     // Origin x, y; height of the floor; length.
layout(location = 1) in vec4 run;      // Along x, y; inward x, y.
layout(location = 2) in float thick;

uniform mat4 view_projection;
uniform float reach;
uniform vec2 drift;     // The wide part falls away from the light, mm in the world.

smooth out vec2 spot;       // mm from the wall's own corner.
flat out vec4 size;         // Length, thickness, drift along and across.

void main() {
  vec2 unit = vec2((gl_VertexID & 1), (gl_VertexID >> 1) & 1);
  vec2 size_mm = vec2(foot.w, thick);
  spot = mix(vec2(-reach), size_mm + reach, unit);
  size = vec4(size_mm, dot(drift, run.xy), dot(drift, run.zw));
  gl_Position = view_projection * vec4(foot.xy + run.xy * spot.x + run.zw * spot.y, foot.z, 1.0);
}
