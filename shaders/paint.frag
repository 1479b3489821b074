// One lookup for the pattern, one comparison for the ink.

uniform sampler2DArray patterns;
uniform float floor_height;

out vec4 drawn;

void main() {
  leaveCut();
  float tone = texture(patterns, vec3(place.xy, streak.w)).r;
  vec3 paint = mix(colour.rgb, streak.rgb, tone);

  // A pixel's middle may lie just outside a thin face; it is no further in the ink than the edge itself.
  vec4 off = max(edge * gl_FragCoord.w, 0.0) - pens;
  float from_line = min(min(off.x, off.y), min(off.z, off.w));
  float low = clamp(1.0 - (place.z - floor_height) * (1.0 / 420.0), 0.0, 1.0);
  float pool = clamp(1.0 - from_line * (1.0 / 7.0), 0.0, 1.0);   // Paint gathers a little along the pen's line.
  paint *= 1.0 - 0.20 * place.w - 0.05 * pool * pool - vec3(0.085, 0.095, 0.11) * (low * low);

  float cover = clamp(0.5 - from_line, 0.0, 1.0) * ink.a;
  drawn = vec4(mix(paint, ink.rgb, cover), mix(colour.a, 1.0, cover));
}
