// Two soft boxes: a narrow dark one where timber meets floor, a wide faint one of the whole wall.

uniform vec4 shadow;        // Colour, most opacity.
uniform float reach;

smooth in vec2 spot;
smooth in vec4 size;

out vec4 drawn;

float softBox(vec2 p, vec2 box, float soft) {
  vec2 rise = smoothstep(-soft, soft, p) * smoothstep(-soft, soft, box - p);
  return rise.x * rise.y;
}

void main() {
  leaveCut();
  float contact = softBox(spot, size.xy, 110.0);
  float wide = softBox(spot - size.zw, size.xy, reach * 0.62);
  drawn = vec4(shadow.rgb, shadow.a * (0.60 * contact + 1.10 * wide));
}
