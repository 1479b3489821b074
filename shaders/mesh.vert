// Meshes that repeat: a triangle's corner knows the other two, for its lines and its direction.

layout(location = 0) in vec3 own_corner;
layout(location = 1) in vec3 next_corner;
layout(location = 2) in vec3 last_corner;
layout(location = 3) in vec4 inked;          // Edges own→next, next→last, last→own: 1 or 0; w: which corner this is.
layout(location = 4) in vec4 place_x;        // Columns of the placing matrix.
layout(location = 5) in vec4 place_y;
layout(location = 6) in vec4 place_z;
layout(location = 7) in vec4 place_w;
layout(location = 8) in vec4 whose;          // As Owner, packed.
layout(location = 9) in vec4 wall;           // Inward x, y; seed; nothing.

void main() {
  Owner owner = ownerFrom(whose, wall.z);

  mat4 to_world = mat4(place_x, place_y, place_z, place_w);
  vec3 corner[3];
  vec3 pixel[3];
  corner[0] = (to_world * vec4(own_corner, 1.0)).xyz;
  corner[1] = (to_world * vec4(next_corner, 1.0)).xyz;
  corner[2] = (to_world * vec4(last_corner, 1.0)).xyz;
  for (int i = 0; i < 3; ++i) pixel[i] = inPixels(view_projection * vec4(moved(corner[i], owner, wall.xy), 1.0));
  gl_Position = view_projection * vec4(moved(corner[0], owner, wall.xy), 1.0);
  keepFrom(keptBy(moved(corner[0], owner, wall.xy)));

  // A triangle seen from behind is a sheet's other side: its lines are measured from the other hand.
  bool behind = dot(cross(pixel[0], pixel[1]), pixel[2]) < 0.0;
  float pen = owner.part == picked_part ? max(1.5, edge_px) : edge_px * 0.75;
  edge = vec4(kFar * gl_Position.w);
  pens = vec4(0.0);
  for (int i = 0; i < 3; ++i) {
    if (inked[i] < 0.5) continue;
    vec3 line = lineThrough(pixel[i], pixel[(i + 1) % 3]) * (behind ? -1.0 : 1.0);
    vec3 opposite = pixel[(i + 2) % 3];
    float depth = opposite.z > 0.0 ? dot(line, opposite) / opposite.z : kFar;
    int at = (i + int(inked.w)) % 3;
    edge[at] = dot(line, pixel[0]);
    pens[at] = penFor(pen, depth);
  }

  vec3 normal = cross(corner[1] - corner[0], corner[2] - corner[0]);
  normal /= max(length(normal), 1e-9) * (behind ? -1.0 : 1.0);
  int finish = finishOf(owner, false);
  place = vec4(onTile(owner, finish, false, vec2(own_corner.x + own_corner.y, own_corner.z)), corner[0].z, 0.0);
  dress(owner, shadeOn(normal), finish);
}
