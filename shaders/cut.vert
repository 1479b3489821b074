// Cut faces: three corners a triangle, from a face's middle to one of its edges. See src/render/batches.cpp for the
// texels.

const int kTexels = 12;
const int kAluminium = 6;            // As scene::Material.
const float kHollowFrom = 8.0;       // mm: narrower metal is cut solid …
const float kMetalWall = 2.0;        // … and the wall of a drawn profile, from memory: 1.2 to 2 are usual.
const float kThinnest = 1.7;         // Pixels: sheets are drawn no finer than a line.
const float kMostGrown = 14.0;       // mm: but not as wide as what they lie on.

uniform DataWholes faces;
uniform DataNumbers solids;
uniform vec3 cut_side;               // The plane's own axes.
uniform vec3 cut_up;

flat out float hollow;               // Pixels of wall round a hollow; below 0: solid metal; 0: by its pattern.

vec3 middle;
vec3 thin;
float grown;

// Sheets too thin to be seen are drawn wider, about their own middle line.
vec3 widened(vec3 corner) {
  return corner + thin * (sign(dot(corner - middle, thin)) * grown);
}

void main() {
  uint entry = dataAt(faces, gl_VertexID / 3).r;
  int at = gl_VertexID % 3;
  int edge_at = int(entry & 7u);
  int base = int(entry >> 3u) * kTexels;

  vec4 centre = dataAt(solids, base + 8);
  vec4 across = dataAt(solids, base + 9);
  vec4 grain = dataAt(solids, base + 10);
  vec4 whose = dataAt(solids, base + 11);
  int count = int(dataAt(solids, base).w);
  int inked = int(across.w);
  bool across_grain = int(whose.x) >> 9 != 0;
  Owner owner = ownerFrom(whose, grain.w);

  middle = centre.xyz;
  thin = across.xyz;
  vec3 here = inPixels(view_projection * vec4(middle, 1.0));
  vec3 aside = inPixels(view_projection * vec4(middle + thin, 1.0));
  float px_per_mm = here.z > 0.0 && aside.z > 0.0 ? length(aside.xy / aside.z - here.xy / here.z) : 1.0;
  grown = clamp(0.5 * kThinnest / max(px_per_mm, 1e-6) - centre.w, 0.0, kMostGrown);

  // The edge before, the triangle's own, and the two after it.
  vec3 pixel[5];
  for (int i = 0; i < 5; ++i) {
    vec3 corner = dataAt(solids, base + (edge_at + i - 1 + count) % count).xyz;
    pixel[i] = inPixels(view_projection * vec4(widened(corner), 1.0));
  }
  vec3 own = at == 0 ? middle : widened(dataAt(solids, base + (edge_at + at - 1) % count).xyz);
  gl_Position = view_projection * vec4(own, 1.0);
  keepFrom(1.0);
  vec3 own_pixel = inPixels(gl_Position);

  bool picked = owner.part == picked_part;
  float whole = max(picked ? 2.0 : 1.4, edge_px * (owner.part == hovered_part ? 1.5 : 1.2));
  float room = kFar;
  if (owner.material == kGlass) whole *= 0.6;
  for (int i = 0; i < 4; ++i) {
    vec3 line = lineThrough(pixel[i], pixel[i + 1]);
    edge[i] = dot(line, own_pixel);
    pens[i] = (inked >> (edge_at + i - 1 + count) % count & 1) != 0 ? whole : -kFar;
  }
  // As a wall is drawn from both sides of its middle: where there is no room for two lines, none is drawn.
  if (dot(thin, thin) > 0.0) room = 2.0 * (centre.w + grown) * px_per_mm;
  for (int i = 0; i < 4; ++i) {
    if (pens[i] > 0.0) pens[i] = penFor(min(whole, room * 0.22), room);
  }
  hollow = 0.0;
  if (owner.material == kAluminium) {
    bool profile = 2.0 * centre.w > kHollowFrom && dot(grain.xyz, grain.xyz) > 0.0;
    hollow = profile ? max(kMetalWall * px_per_mm, whole + 0.4) : -1.0;
  }

  int finish = owner.material + (across_grain ? 3 : 2) * kMaterials;
  vec3 normal = cross(cut_side, cut_up);
  vec2 in_face = vec2(dot(own, cut_side), dot(own, cut_up));
  if (across_grain) {
    vec3 first = dataAt(solids, base).xyz;
    in_face -= vec2(dot(first, cut_side), dot(first, cut_up));
  } else if (dot(grain.xyz, grain.xyz) > 0.0 && tile_of[finish].z == 0.0) {
    in_face = vec2(dot(own, grain.xyz), dot(own, cross(normal, grain.xyz)));
  }
  place = vec4(onTile(owner, finish, across_grain, in_face), kFar, 0.0);
  dress(owner, light_colour, finish);
  colour.a = 1.0;
}
