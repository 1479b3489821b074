#include "render/renderer.h"

#include <algorithm>
#include <array>
#include <limits>
#include <stdexcept>

#include "render/batches.h"
#include "render/gl.h"
#include "render/palette.h"
#include "render/visible.h"
#include "shaders.h"

namespace sillwright::render {

namespace {

/// The light: from the upper left and a little behind the reader, turning with the view as a drawing's does.
glm::vec3 toLight(const Camera& camera) {
  const glm::vec3 back = glm::cross(camera.right(), glm::vec3(0.0F, 0.0F, 1.0F));  // level, towards the reader
  return glm::normalize(glm::vec3(0.0F, 0.0F, 0.72F) - camera.right() * 0.62F + back * 0.46F);
}

/// The patterns, one layer each, with their smaller versions for distance.
Texture makePatterns() {
  Texture texture = make<Texture>(glGenTextures);
  glActiveTexture(GL_TEXTURE0 + kPatternsUnit);
  glBindTexture(GL_TEXTURE_2D_ARRAY, texture.id());
  glTexImage3D(GL_TEXTURE_2D_ARRAY, 0, GL_R8, kTile, kTile, static_cast<GLsizei>(kPatterns), 0, GL_RED,
               GL_UNSIGNED_BYTE, nullptr);
  for (std::size_t i = 0; i < kPatterns; ++i) {
    const std::vector<std::uint8_t> tile = paintTile(static_cast<Pattern>(i));
    glTexSubImage3D(GL_TEXTURE_2D_ARRAY, 0, 0, 0, static_cast<GLint>(i), kTile, kTile, 1, GL_RED, GL_UNSIGNED_BYTE,
                    tile.data());
  }
  glGenerateMipmap(GL_TEXTURE_2D_ARRAY);
  glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_NEAREST);
  glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_WRAP_S, GL_REPEAT);
  glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_WRAP_T, GL_REPEAT);
  return texture;
}

/// Sets uniforms of the program in use by name; a name that the driver left out as unused is skipped.
class Uniforms {
 public:
  explicit Uniforms(const Program& program) : program_(program.id()) { glUseProgram(program_); }
  void set(const char* name, float v) const { glUniform1f(at(name), v); }
  void set(const char* name, int v) const { glUniform1i(at(name), v); }
  void set(const char* name, PartKey v) const { glUniform2i(at(name), v.block, v.local); }
  void set(const char* name, glm::vec2 v) const { glUniform2f(at(name), v.x, v.y); }
  void set(const char* name, glm::vec3 v) const { glUniform3f(at(name), v.x, v.y, v.z); }
  void set(const char* name, glm::vec4 v) const { glUniform4f(at(name), v.x, v.y, v.z, v.w); }
  void set(const char* name, const glm::mat4& v) const { glUniformMatrix4fv(at(name), 1, GL_FALSE, &v[0][0]); }
  [[nodiscard]] GLint at(const char* name) const { return glGetUniformLocation(program_, name); }

 private:
  GLuint program_;
};

void setPalette(const Uniforms& u, const Palette& p) {
  constexpr std::size_t kFinishes = 4 * scene::kMaterials;
  std::array<glm::vec4, kFinishes> face{};
  std::array<glm::vec4, kFinishes> streak{};
  std::array<glm::vec3, kFinishes> tile{};
  for (std::size_t i = 0; i < kFinishes; ++i) {
    const Paint& paint = p.paint[i % scene::kMaterials];  // all materials' faces come first, then all their ends
    const std::array<const Finish*, 4> finishes{&paint.face, &paint.end, &paint.cut, &paint.cut_across};
    const Finish& finish = *finishes[i / scene::kMaterials];
    face[i] = {finish.colour, paint.alpha};  // a material has one opacity
    streak[i] = {finish.streak, finish.vary};
    tile[i] = {1.0F / finish.tile_mm, static_cast<float>(finish.pattern)};  // tiles a millimetre
  }
  constexpr auto kCount = static_cast<GLsizei>(kFinishes);
  glUniform4fv(u.at("face_colour"), kCount, &face[0].x);
  glUniform4fv(u.at("streak_colour"), kCount, &streak[0].x);
  glUniform3fv(u.at("tile_of"), kCount, &tile[0].x);
  u.set("ink_colour", p.ink);
  u.set("accent_colour", p.accent);
  u.set("glow_colour", p.glow);
  u.set("light_colour", p.light);
  u.set("shade_colour", p.shade);
}

void setLook(const Uniforms& u, const Look& look, const Sent& sent) {
  const auto spread = shownUnder(look).shift;  // picking has the same
  glUniform1fv(u.at("spread_of"), static_cast<GLsizei>(scene::kLayers), spread.data());
  u.set("edge_px", look.edge_px);
  u.set("hovered_part", sent.keyOf(look.hovered_part));
  u.set("picked_part", sent.keyOf(look.picked_part));
  u.set("lit_step", look.lit_step ? static_cast<int>(*look.lit_step) : -1);
}

/// The plane, and its axes for the patterns of what it cuts.
void setCut(const Uniforms& u, const std::optional<scene::Cut>& cut) {
  // Without a cut everything stays, also where a driver goes on clipping after it was told to stop (Mesa 22.3 does).
  u.set("cut_plane", glm::vec4(0.0F, 0.0F, 0.0F, 1.0F));
  if (!cut) return;
  const scene::CutAxes axes = scene::axesOf(*cut);
  u.set("cut_plane", glm::vec4(cut->normal, cut->at));
  u.set("cut_side", axes.side);
  u.set("cut_up", axes.up);
}

/// Whether the eye looks upon the plane from its free side.
bool isFaced(const scene::Cut& cut, const Camera& camera) {
  return camera.parallel ? glm::dot(cut.normal, camera.forward()) < 0.0F : cut.faces(camera.eye());
}

/// How far a shadow is lifted off what it lies on, mm: less than any part is thick, more than the depth buffer's step.
constexpr float kLift = 1.0F;
/// A wall stands on a floor within this of its foot, mm.
constexpr float kStandsOn = 200.0F;

float cross(glm::vec2 a, glm::vec2 b) { return a.x * b.y - a.y * b.x; }  // above 0: b turns left from a

std::vector<glm::vec2> reachOf(const scene::WallFrame& wall) {
  const auto at = [&](float x, float y) {
    return glm::vec2(wall.origin) + glm::vec2(wall.along) * x + glm::vec2(wall.inward) * y;
  };
  const float far_x = wall.length + kShadowReach;
  const float far_y = wall.depth + kShadowReach;
  return {at(-kShadowReach, -kShadowReach), at(far_x, -kShadowReach), at(far_x, far_y), at(-kShadowReach, far_y)};
}

void addFan(std::vector<ShadowCorner>& out, const std::vector<glm::vec2>& polygon, float height,
            const scene::WallFrame& wall) {  // convex; may have no corners
  const auto corner = [&](glm::vec2 p) {
    const glm::vec2 from = p - glm::vec2(wall.origin);
    const glm::vec2 along(wall.along);
    const glm::vec2 inward(wall.inward);
    return ShadowCorner{{p, height + kLift},
                        {glm::dot(from, along), glm::dot(from, inward)},
                        {wall.length, wall.depth},
                        {along, inward}};
  };
  for (std::size_t i = 2; i < polygon.size(); ++i) {
    for (const std::size_t k : {std::size_t{0}, i - 1, i}) out.push_back(corner(polygon[k]));
  }
}

struct Floor {
  std::vector<glm::vec2> outline;  ///< Anticlockwise.
  float height = 0.0F;
};

/// The tops of the floor's solids; `lowest` becomes the level of the ground they stand on.
std::vector<Floor> floorsOf(const scene::Scene& scene, float& lowest) {
  std::vector<Floor> floors;
  constexpr std::size_t kTop = 5;  // +w in kFaces: anticlockwise seen from above.
  for (const scene::Solid& solid : scene.solids) {
    if (scene.parts.at(solid.part).material != scene::Material::Floor) continue;
    Floor floor;
    for (const std::uint8_t i : scene::kFaces[kTop]) {
      floor.outline.emplace_back(solid.corner[i]);
      floor.height = solid.corner[i].z;
    }
    for (const glm::vec3& corner : solid.corner) lowest = std::min(lowest, corner.z);
    floors.push_back(std::move(floor));
  }
  return floors;
}

}  // namespace

float spreadOffset(scene::Layer layer, float spread) {
  if (layer == scene::Layer::Ground) return 0.0F;  // the house stands on it
  return spread * static_cast<float>(static_cast<int>(layer) - static_cast<int>(scene::Layer::Frame));
}

scene::PickFilter shownUnder(const Look& look) {
  scene::PickFilter filter;
  filter.hidden_layers = look.hidden_layers;
  filter.hidden_steps = look.hidden_steps;
  for (std::size_t i = 0; i < scene::kLayers; ++i) {
    filter.shift[i] = spreadOffset(static_cast<scene::Layer>(i), look.spread);
  }
  filter.cut = look.cut;
  return filter;
}

struct Renderer::State {
  Program solid_program;
  Program mesh_program;
  Program shadow_program;
  Program cut_program;
  Texture patterns;
  SolidBatch solids;
  MeshBatch meshes;
  ShadowBatch shadows;
  CutBatch cuts;
  std::optional<scene::PickFilter> cut_of;  ///< What `cuts` was worked out for.
  Sent sent;
  Seen seen;
  Visible visible;
  float floor_height = 0.0F;  ///< Lowest foot of a wall.
  /// The picture that was drawn last, and what of it doesn't show what is there any more.
  struct Last {
    Camera camera;
    Look look;
    glm::vec2 size;
    DepthRange depths;
    Within seen;
    std::array<PartKey, 2> marked;  ///< Hovered and picked.
  };
  std::optional<Last> last;
  std::vector<PixelBox> spoilt;

  void spoil(const Whereabouts& where, const std::array<glm::vec3, 8>* corners = nullptr) {
    if (!last || where.radius < 0.0F || !isShown(where.layer, where.step, last->look)) return;  // nothing to spoil
    const PixelBox box = corners != nullptr ? last->seen.round(where, *corners) : last->seen.round(where);
    addBox(spoilt, common(box, {0.0F, 0.0F, last->size}));
  }

  void spoilSolids(const std::vector<std::size_t>& places) {
    for (const std::size_t place : places) {
      if (place < seen.where.size()) spoil(seen.where[place], &seen.corner[place]);
    }
  }

  [[nodiscard]] std::array<PartKey, 2> markedIn(const Look& look) const {
    return {sent.keyOf(look.hovered_part), sent.keyOf(look.picked_part)};
  }

  /// Notes what is marked otherwise than it was. False: all of the picture is another.
  bool spoilMarked(const Camera& camera, const Look& look, glm::vec2 size) {
    if (!last || look.cut || last->camera != camera || last->size != size) return false;
    Look alike = look;  // it is to differ in nothing but what is marked
    alike.hovered_part = last->look.hovered_part;
    alike.picked_part = last->look.picked_part;
    if (alike != last->look) return false;
    const std::array<PartKey, 2> marked = markedIn(look);
    for (std::size_t i = 0; i < marked.size(); ++i) {
      if (marked[i] == last->marked[i]) continue;
      for (const PartKey key : {marked[i], last->marked[i]}) {
        spoilSolids(sent.placesOf(key));
        for (const Whereabouts& where : meshes.placesOf(key)) spoil(where);
      }
    }
    return true;
  }

  void setFrame(const Program& program, const Camera& camera, const Look& look, const Palette& colours,
                const glm::mat4& view_projection, glm::vec2 size) const {
    const Uniforms u(program);
    u.set("view_projection", view_projection);
    u.set("half_size", size * 0.5F);
    u.set("to_light", toLight(camera));
    u.set("eye", camera.eye());
    u.set("floor_height", floor_height);
    u.set("patterns", static_cast<int>(kPatternsUnit));
    u.set("faces", static_cast<int>(kFacesUnit));
    u.set("solids", static_cast<int>(kSolidsUnit));
    std::array<GLint, 24> corner{};
    for (std::size_t i = 0; i < 24; ++i) corner[i] = scene::kFaces[i / 4][i % 4];
    glUniform1iv(u.at("face_corner"), 24, corner.data());
    setPalette(u, colours);
    setLook(u, look, sent);
    setCut(u, look.cut);
  }

  /// Draws what is listed (`within`: of it). Returns the number of draw calls.
  int drawListed(const Camera& camera, const Look& look, const Palette& colours, const glm::mat4& view_projection,
                 glm::vec2 size, const Within* within);
};

Renderer::Renderer() {
#ifndef __EMSCRIPTEN__  // a page asks for its context by version
  if (epoxy_gl_version() < 33) {
    throw std::runtime_error("This machine's OpenGL is too old: version 3.3 is needed.");
  }
#endif
  state_ = std::make_unique<State>();
  State& s = *state_;
  s.solid_program = makeProgram("solid", shaders::dress_glsl, shaders::solid_vert, shaders::paint_frag);
  s.mesh_program = makeProgram("mesh", shaders::dress_glsl, shaders::mesh_vert, shaders::paint_frag);
  s.shadow_program = makeProgram("shadow", "", shaders::shadow_vert, shaders::shadow_frag);
  s.cut_program = makeProgram("cut", shaders::dress_glsl, shaders::cut_vert, shaders::cut_frag);
  s.patterns = makePatterns();
}

Renderer::~Renderer() = default;

void Renderer::upload(const scene::Scene& scene) {
  State& s = *state_;
  s.cut_of.reset();  // its faces are of the scene before
  try {
    const std::vector<Stretch> changed = s.sent.take(scene);
    if (s.sent.groundChanged()) s.last.reset();  // floors and shadows reach everywhere
    s.spoilSolids(s.sent.changedPlaces());       // as they were …
    if (s.sent.places() > kMostSolids || s.sent.blocks() > kMostBlocks) {
      throw std::runtime_error(
          "The scene is too large to be drawn: the renderer numbers two million solids, some of them to spare.");
    }
    renew(s.seen, scene, s.sent.places(), changed);
    s.spoilSolids(s.sent.changedPlaces());  // … and as they are
    s.visible.forget(s.sent.changedPlaces());
    s.solids.upload(scene, s.sent, changed);
    for (const Whereabouts& where : s.meshes.upload(scene, s.sent)) s.spoil(where);
    if (s.sent.groundChanged()) s.shadows.upload(scene);
  } catch (...) {
    s.sent = {};  // nobody knows what has arrived
    s.last.reset();
    throw;
  }
  s.floor_height = scene.walls.empty() ? scene.bounds.low.z : scene.walls.front().origin.z;
  for (const scene::WallFrame& wall : scene.walls) s.floor_height = std::min(s.floor_height, wall.origin.z);
}

void Renderer::cut(const scene::Scene& scene, const Look& look) {
  if (!look.cut) return;
  scene::PickFilter shown = shownUnder(look);
  if (state_->cut_of == shown) return;
  state_->cuts.upload(scene, state_->sent, scene::sectionOf(scene, *look.cut, shown));
  state_->cut_of = shown;
}

int Renderer::State::drawListed(const Camera& camera, const Look& look, const Palette& colours,
                                const glm::mat4& view_projection, glm::vec2 size, const Within* within) {
  int calls = 0;
  meshes.send(within);  // a driver would wait for it once something is drawn
  setFrame(solid_program, camera, look, colours, view_projection, size);
  setFrame(mesh_program, camera, look, colours, view_projection, size);
  glActiveTexture(GL_TEXTURE0 + kPatternsUnit);
  glBindTexture(GL_TEXTURE_2D_ARRAY, patterns.id());
  glEnable(GL_DEPTH_TEST);
  glDepthFunc(GL_LESS);
  glDisable(GL_CULL_FACE);  // solids list only what is turned to the eye; a mesh may be open
  glDisable(GL_BLEND);
  glDisable(GL_STENCIL_TEST);
  if (look.cut) clipByCut(true);
  glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE);  // what is opaque stays opaque

  // Opaque parts.
  glUseProgram(solid_program.id());
  calls += solids.draw(visible.opaqueFaces(seen, within));
  glUseProgram(mesh_program.id());
  calls += meshes.draw(false);

  if (look.cut && cut_of == shownUnder(look) && isFaced(*look.cut, camera)) {  // else its faces are another look's
    setFrame(cut_program, camera, look, colours, view_projection, size);
    calls += cuts.draw();
  }

  // What lies over them and lets them through: shadows, then glass.
  glEnable(GL_BLEND);
  glDepthMask(GL_FALSE);  // what lets through hides nothing
  if (look.shadow) {
    const Uniforms u(shadow_program);
    u.set("view_projection", view_projection);
    u.set("shadow", colours.shadow);
    u.set("reach", kShadowReach);
    setCut(u, look.cut);
    u.set("drift", -glm::vec2(toLight(camera)) * 220.0F);  // mm, away from the light
    calls += shadows.draw(camera, !isShown(scene::Layer::Ground, scene::PartStep::FromTheStart, look));
  }
  glUseProgram(solid_program.id());
  calls += solids.draw(visible.glass.facesIn(seen, within));
  glUseProgram(mesh_program.id());
  calls += meshes.draw(true);

  glDepthMask(GL_TRUE);  // what is cleared next is cleared whole
  clipByCut(false);      // nor do the panels' shaders say what stays
  glBindVertexArray(0);
  glActiveTexture(GL_TEXTURE0);
  return calls;
}

DrawCounts Renderer::draw(const Camera& camera, const Look& look, int width, int height, bool kept) {
  State& s = *state_;
  const Palette colours = palette(look.dark);
  const glm::vec2 size{static_cast<float>(std::max(width, 1)), static_cast<float>(std::max(height, 1))};
  const std::vector<PixelBox> whole{{0.0F, 0.0F, size}};
  bool in_part = kept && s.spoilMarked(camera, look, size);
  DrawCounts counts;
  counts.boxes = in_part ? apart(s.spoilt, size) : whole;
  if (counts.boxes.empty()) {  // nothing that is in sight has changed
    s.last->look = look;
    s.last->marked = s.markedIn(look);
    return counts;
  }

  // With one sample a pixel, what is small only flickers from a larger size on: as in a picture of fewer pixels.
  constexpr float kCoarser = 2.4F;
  GLint samples = 0;
  glGetIntegerv(GL_SAMPLES, &samples);
  const glm::vec2 seen_size = samples > 1 ? size : size / kCoarser;
  // What the eye sees, and between which depths: other depths would make every pixel another.
  listVisible(s.visible, s.seen, camera, look, seen_size, in_part);
  DepthRange range = s.visible.depths;
  counts.solids = s.visible.solids + s.meshes.list(look, camera, seen_size.y, range);
  if (look.shadow) s.shadows.widen(camera, range);
  if (in_part && !(s.last->depths == range)) {  // all depths are others
    in_part = false;
    counts.boxes = whole;
  }
  s.last = State::Last{camera, look, size, range, {Projection(camera, size.x, size.y), look.spread}, s.markedIn(look)};
  s.spoilt.clear();

  constexpr float kNearest = 0.0F;                                          // as depth: nothing is nearer
  const float slack = 1.0F + 1e-4F * (range.far_depth - range.near_depth);  // rounding takes off less
  // Each box is cleared and drawn for itself, as if it were the whole picture.
  if (in_part) glEnable(GL_SCISSOR_TEST);
  for (const PixelBox& box : counts.boxes) {
    const glm::ivec4 at(box.x, size.y - box.w, box.z - box.x, box.w - box.y);  // OpenGL counts rows from below
    glDepthMask(GL_TRUE);                                                      // a clear heeds the masks
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    if (in_part) {  // with samples Mesa's software driver (22.3) draws beyond a box by a pixel: not behind depth 0
      glScissor(at.x - 2, at.y - 2, at.z + 4, at.w + 4);
      glClearBufferfv(GL_DEPTH, 0, &kNearest);
    }
    glScissor(at.x, at.y, at.z, at.w);
    glClearColor(colours.ground.r, colours.ground.g, colours.ground.b, 1.0F);
    glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT | GL_STENCIL_BUFFER_BIT);
    if (range.near_depth > range.far_depth) continue;  // there is nothing to draw
    const glm::mat4 to_clip =
        camera.projectionBetween(size.x / size.y, range.near_depth - slack, range.far_depth + slack) * camera.view();
    const Within within{s.last->seen.seen, look.spread, box};
    counts.draw_calls += s.drawListed(camera, look, colours, to_clip, size, in_part ? &within : nullptr);
  }
  glDisable(GL_SCISSOR_TEST);
  return counts;
}

std::vector<glm::vec2> clipTo(std::vector<glm::vec2> polygon, const std::vector<glm::vec2>& within) {
  // Sutherland and Hodgman: one side of the window after the other.
  for (std::size_t i = 0; i < within.size() && !polygon.empty(); ++i) {
    const glm::vec2 a = within[i];
    const glm::vec2 side = within[(i + 1) % within.size()] - a;
    std::vector<glm::vec2> kept;
    for (std::size_t k = 0; k < polygon.size(); ++k) {
      const glm::vec2 p = polygon[k];
      const glm::vec2 q = polygon[(k + 1) % polygon.size()];
      const float at_p = cross(side, p - a);
      const float at_q = cross(side, q - a);
      if (at_p >= 0.0F) kept.push_back(p);  // what is left of the side lies within
      if ((at_p > 0.0F && at_q < 0.0F) || (at_p < 0.0F && at_q > 0.0F))
        kept.push_back(p + (q - p) * (at_p / (at_p - at_q)));
    }
    polygon = std::move(kept);
  }
  if (polygon.size() < 3) polygon.clear();  // a line or a point has no area
  return polygon;
}

Shadows layShadows(const scene::Scene& scene) {
  Shadows shadows;
  float ground = std::numeric_limits<float>::max();
  const std::vector<Floor> floors = floorsOf(scene, ground);
  for (const scene::WallFrame& wall : scene.walls) {
    const std::vector<glm::vec2> reach = reachOf(wall);
    addFan(shadows.bare, reach, wall.origin.z, wall);
    addFan(shadows.laid, reach, floors.empty() ? wall.origin.z : std::min(ground, wall.origin.z), wall);
    for (const Floor& floor : floors) {
      if (std::abs(floor.height - wall.origin.z) > kStandsOn) continue;
      addFan(shadows.laid, clipTo(reach, floor.outline), floor.height, wall);
    }
  }
  return shadows;
}

}  // namespace sillwright::render
