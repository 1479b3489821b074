// What the shaders of faces share: what goes from a vertex to its pixels, and of vertices how a face is coloured, lit,
// inked and moved. Colours are mixed as they are seen, like paint; faces are flat, so light is worked out a face at a
// time and not a pixel at a time.

smooth passed vec4 edge;    // Distance from each edge of the face, pixels, times clip w.
flat passed vec4 pens;      // Width of the line on each edge, pixels.
smooth passed vec4 place;   // Pattern's coordinates, height above the floor, depth of shade in a bay.
flat passed vec4 colour;
flat passed vec4 streak;    // w: the pattern's layer.
flat passed vec4 ink;

#ifdef OF_VERTEX
const int kMaterials = 18;
const int kLayers = 11;
const int kGlass = 7;           // As scene::Material.
const int kCladding = 9;
const int kFloor = 14;
const int kBrick = 16;
const float kFar = 1.0e4;       // Pixels: further than any line is wide.

uniform mat4 view_projection;
uniform vec2 half_size;               // Of the picture, pixels.
uniform vec3 to_light;                // Unit, world.
uniform vec3 eye;
uniform float spread_of[kLayers];     // mm along the wall's inward direction.
uniform vec4 cut_plane;               // Normal and distance: what is beyond it isn't drawn, while clipping is on.
// Long faces, those across the grain, those cut, those cut across the grain.
uniform vec4 face_colour[4 * kMaterials];    // w: opacity.
uniform vec4 streak_colour[4 * kMaterials];  // w: how much one part's tone differs from the next's.
uniform vec3 tile_of[4 * kMaterials];        // Tiles a millimetre along and across, and the pattern's layer.
uniform vec3 ink_colour;
uniform vec3 accent_colour;
uniform vec3 glow_colour;
uniform vec3 light_colour;
uniform vec3 shade_colour;
uniform float edge_px;
uniform ivec2 hovered_part;           // Block, and number in it; -1: none.
uniform ivec2 picked_part;
uniform int lit_step;                 // -1: none.

struct Owner {
  int material;
  int layer;
  ivec2 part;
  int step;
  float seed;               // 0 … 1, of the part.
};

// As ownerOf in src/render/batches.cpp.
Owner ownerFrom(vec4 whose, float seed) {
  Owner owner;
  owner.material = int(whose.x) & 31;
  owner.layer = int(whose.x) >> 5 & 15;
  owner.part = ivec2(int(whose.w) >> 5, int(whose.y));
  owner.step = int(whose.w) & 31;
  owner.seed = seed;
  return owner;
}

vec3 moved(vec3 p, Owner owner, vec2 inward) {
  return p + vec3(inward * spread_of[owner.layer], 0.0);
}

// The line from a to b in (pixels, w): dot(line, p) is p's distance to its left, times p's w. Holds behind the eye too.
vec3 lineThrough(vec3 a, vec3 b) {
  vec3 line = cross(a, b);
  return line / max(length(line.xy), 1e-20);
}

vec3 inPixels(vec4 clip) {
  return vec3(clip.xy * half_size, clip.w);
}

// Lines thin out and fade where they are only a few pixels long, or the face behind them as narrow: else a far window
// would be a blot.
float penFor(float pen, float room_px) {
  return mix(-0.42, pen, smoothstep(0.8, 7.0, room_px));
}

// A soft key light over a brighter sky: 0 turned away, 1 full.
float lightOn(vec3 n) {
  float key = dot(n, to_light) * 0.5 + 0.5;
  float sky = n.z * 0.5 + 0.5;
  return clamp(0.82 * key * key + 0.26 * sky + 0.02, 0.0, 1.0);
}

vec3 shadeOn(vec3 n) {
  return mix(shade_colour, light_colour, lightOn(n));
}

// Above 0: stays. What only touches the plane stays too.
float keptBy(vec3 p) {
  return cut_plane.w + 0.01 - dot(cut_plane.xyz, p);
}

int finishOf(Owner owner, bool across_grain) {
  return owner.material + (across_grain ? kMaterials : 0);
}

// Sets colour, streak and ink from whose face it is.
void dress(Owner owner, vec3 light, int finish) {
  float tone = 1.0 + (owner.seed - 0.5) * streak_colour[finish].w;
  vec3 base = face_colour[finish].rgb * light * tone;
  vec3 grain = streak_colour[finish].rgb * light * tone;
  vec4 pen = vec4(ink_colour, owner.material == kGlass ? 0.75 : 0.92);
  // On black parts the line is a white pencil's.
  pen.rgb = mix(face_colour[finish].rgb + 0.30, pen.rgb, smoothstep(0.20, 0.40, face_colour[finish].g));

  if (lit_step >= 0 && owner.step != lit_step) {   // The rest is quiet.
    base = mix(base, light, 0.45);
    grain = mix(grain, light, 0.5);
    pen.a *= 0.5;
  } else if (owner.step == lit_step) {
    base = mix(base, glow_colour, 0.22);
    grain = mix(grain, glow_colour, 0.16);
  }
  if (owner.part == hovered_part) {
    base = mix(base, glow_colour, 0.42);
    grain = mix(grain, glow_colour, 0.34);
    pen.a = 1.0;
  }
  if (owner.part == picked_part) {
    base = mix(base, accent_colour, 0.20);
    grain = mix(grain, accent_colour, 0.22);
    pen = vec4(accent_colour, 1.0);
  }
  colour = vec4(base, face_colour[finish].w);
  streak = vec4(grain, tile_of[finish].z);
  ink = pen;
}

// Where on the pattern a point in the face lies; every part starts at its own spot of the tile.
vec2 onTile(Owner owner, int finish, bool across_grain, vec2 in_face) {
  vec2 start = vec2(fract(owner.seed * 7.31), fract(owner.seed * 23.17));
  if (across_grain) start *= 0.5;   // Rings don't repeat; stay clear of the tile's far side.
  return in_face * tile_of[finish].xy + start;
}
#endif
