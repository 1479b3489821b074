// A cut face: its section pattern, the wall round a hollow, and a heavy line along its edge.

uniform sampler2DArray patterns;

flat in float hollow;

out vec4 drawn;

void main() {
  leaveCut();
  vec4 from_edge = max(edge * gl_FragCoord.w, 0.0);
  vec4 off = from_edge - pens;
  float from_line = min(min(off.x, off.y), min(off.z, off.w));
  float tone = texture(patterns, vec3(place.xy, streak.w)).r;
  if (hollow < 0.0) tone = 0.0;
  if (hollow > 0.0) {
    float depth = min(min(from_edge.x, from_edge.y), min(from_edge.z, from_edge.w)) - hollow;
    tone = clamp(0.5 + depth, 0.0, 1.0);
    from_line = min(from_line, abs(depth) + 0.1);   // A hair round the hollow.
  }
  vec3 paint = mix(colour.rgb, streak.rgb, tone);
  float cover = clamp(0.5 - from_line, 0.0, 1.0) * ink.a;
  drawn = vec4(mix(paint, ink.rgb, cover), 1.0);
}
