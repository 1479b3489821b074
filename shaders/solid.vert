// Solids: four corners a face, from the list of faces the eye can see. See src/render/visible.h for the packing.

const int kTexels = 17;   // A solid: 8 corners, 6 normals, grain + seed, owner, wall.

uniform DataWholes faces;
uniform DataNumbers solids;
uniform int face_corner[24];

void main() {
  uint entry = dataAt(faces, gl_VertexID >> 2).r;
  int k = gl_VertexID & 3;
  int face = int(entry >> 8u) & 7;
  int base = int(entry >> 11u) * kTexels;

  vec4 grain = dataAt(solids, base + 14);
  vec4 whose = dataAt(solids, base + 15);
  vec4 wall = dataAt(solids, base + 16);   // Inward x, y; the local y of the origin; depth.
  vec3 normal = dataAt(solids, base + 8 + face).xyz;
  Owner owner = ownerFrom(whose, grain.w);

  vec3 corner[4];
  vec3 pixel[4];
  for (int i = 0; i < 4; ++i) {
    corner[i] = dataAt(solids, base + face_corner[face * 4 + i]).xyz;
    pixel[i] = inPixels(view_projection * vec4(moved(corner[i], owner, wall.xy), 1.0));
  }
  vec3 own = corner[k];
  gl_Position = view_projection * vec4(moved(own, owner, wall.xy), 1.0);
  keepFrom(keptBy(moved(own, owner, wall.xy)));

  // Ink.
  bool picked = owner.part == picked_part;
  float whole = picked ? max(2.0, edge_px) : owner.part == hovered_part ? edge_px * 1.35 : edge_px;
  float shared_pen = picked ? whole * 0.5 : whole * 0.42;
  if (!picked) {
    // Glass and the many lines of the boards are drawn with a finer pen.
    float fine = owner.material == kGlass ? 0.6 : owner.material == kCladding || owner.material == kBrick ? 0.75 : 1.0;
    whole *= fine;
    shared_pen *= fine;
  }
  for (int i = 0; i < 4; ++i) {
    bool inked = (entry >> uint(4 + i) & 1u) != 0u;
    bool outline = (entry >> uint(i) & 1u) != 0u;
    vec3 a = pixel[i];
    vec3 b = pixel[(i + 1) & 3];
    vec3 line = lineThrough(a, b);
    float span = length(a.xy * b.z - b.xy * a.z);
    if (!inked || span < 1e-3 * abs(a.z * b.z)) {
      edge[i] = kFar * gl_Position.w;
      pens[i] = 0.0;
      continue;
    }
    vec3 c = pixel[(i + 2) & 3];
    vec3 d = pixel[(i + 3) & 3];
    float depth_c = c.z > 0.0 ? dot(line, c) / c.z : kFar;
    float depth_d = d.z > 0.0 ? dot(line, d) / d.z : kFar;
    float wide = a.z > 0.0 && b.z > 0.0 ? 1.5 * span / (a.z * b.z) : kFar;
    pens[i] = penFor(outline ? whole : shared_pen, min(wide, max(depth_c, depth_d)));
    edge[i] = dot(line, pixel[k]);
  }

  // Paint. Coordinates come from the world, so that the pieces of one part carry one grain.
  bool across_grain = face >> 1 == int(whose.x) >> 9;
  vec3 along = across_grain ? normalize(corner[1] - corner[0] + vec3(1e-6)) : grain.xyz;
  vec3 side = cross(normal, along);
  if (across_grain) own -= corner[0];
  int finish = finishOf(owner, across_grain);
  place.xy = onTile(owner, finish, across_grain, vec2(dot(own, along), dot(own, side)));
  place.z = owner.material == kFloor ? kFar : corner[k].z;

  // Bays are darker away from the side they are looked into.
  place.w = 0.0;
  if (wall.w > 0.0) {
    float into = clamp((dot(corner[k].xy, wall.xy) - wall.z) / wall.w, 0.0, 1.0);
    bool from_outside = dot(eye.xy, wall.xy) < wall.z + 0.5 * wall.w;
    place.w = (from_outside ? into : 1.0 - into) * (1.0 - abs(dot(normal.xy, wall.xy)));
  }
  dress(owner, shadeOn(normal), finish);
}
