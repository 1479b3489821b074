/// What the card holds of a scene: solids, meshes, the shadows of the walls' feet, and the faces of a section.
///
/// Each batch is sent once a scene and draws with a number of calls that doesn't depend on how much it holds: one for
/// the solids of a pass, one for the shadows, one for each different mesh. Inside this room only.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "render/gl.h"
#include "render/renderer.h"
#include "render/visible.h"
#include "scene/scene.h"
#include "scene/section/section.h"

namespace sillwright::render {

/// Texture units.
inline constexpr GLuint kFacesUnit = 0;
inline constexpr GLuint kSolidsUnit = 1;
inline constexpr GLuint kPatternsUnit = 2;

/// Whose a thing is, as floats (whole numbers to 2²⁴ are exact): material + 32 layer + 512 `more`, the part's number in
/// its block, opening, step + 32 block. As ownerFrom in dress.glsl.
[[nodiscard]] glm::vec4 ownerOf(const scene::Part& part, PartKey key, std::uint8_t more);
inline constexpr std::size_t kMostBlocks = std::size_t{1} << 19U;

class SolidBatch {
 public:
  SolidBatch();
  /// Sends these solids to their places; the others are as they were sent last. Throws as BufferTexture::send.
  void upload(const scene::Scene& scene, const Sent& sent, const std::vector<Stretch>& changed);
  /// Draws a list of packed faces with the program in use. Returns the number of draw calls: 0 or 1.
  int draw(const std::vector<std::uint32_t>& faces);

 private:
  void growIndices(std::size_t faces);
  BufferTexture solids_;
  BufferTexture faces_;
  Buffer indices_;
  VertexArray array_;
  std::size_t indexed_faces_ = 0;
  std::size_t held_ = 0;  ///< Places on the card.
};

class MeshBatch {
 public:
  MeshBatch();
  /// Returns where something has changed, as it was and as it is.
  std::vector<Whereabouts> upload(const scene::Scene& scene, const Sent& sent);
  /// Lists what is shown under `look` in a picture of so many pixels' height, and widens `range` by it. Returns how
  /// many.
  std::size_t list(const Look& look, const Camera& camera, float height, DepthRange& range);
  /// Of a part.
  [[nodiscard]] std::vector<Whereabouts> placesOf(PartKey key) const;
  /// Sends the listed uses (`within`: that touch it): before the first draw, or a driver waits for that.
  void send(const Within* within);
  /// Draws what was sent of one pass. Returns the number of draw calls.
  int draw(bool glass);

 private:
  struct Vertex {
    glm::vec3 own, next, last;
    glm::vec4 inked;  ///< Of its three edges; which of the triangle's corners it is.
  };
  struct Instance {
    glm::mat4 place;
    glm::vec4 whose;
    glm::vec4 wall;
    bool operator==(const Instance&) const = default;
  };
  struct Shape {
    GLint first = 0;
    GLsizei count = 0;
    glm::vec3 centre{0.0F};
    float radius = 0.0F;
    float width = 0.0F;  ///< Of a thing as long as this one: the second of its three extents.
  };
  struct Use {
    std::size_t shape = 0;
    Whereabouts where{};
    Instance instance{};
    bool operator==(const Use&) const = default;
  };
  struct Run {
    std::size_t shape = 0;
    bool glass = false;
    std::size_t first = 0;
    std::size_t count = 0;
  };
  void addShape(const scene::Mesh& mesh, std::vector<Vertex>& vertices);

  Buffer vertices_;
  Buffer instances_;
  VertexArray array_;
  std::vector<scene::Mesh> meshes_;  ///< As sent: an edit seldom changes them.
  std::vector<Shape> shapes_;
  std::vector<Use> uses_;           ///< As the scene has them.
  std::vector<std::size_t> order_;  ///< Of `uses_`: by pass, glass last, and by shape.
  std::vector<std::size_t> shown_;  ///< Of `uses_`.
  std::vector<Run> runs_;
  std::vector<Instance> listed_;
};

class ShadowBatch {
 public:
  ShadowBatch();
  void upload(const scene::Scene& scene);
  void widen(const Camera& camera, DepthRange& range) const;
  /// Draws those on the floor, or at the walls' feet where the floor is hidden; none from below. Returns the number of
  /// draw calls: 0 or 1.
  int draw(const Camera& camera, bool floor_hidden);

 private:
  Buffer buffer_;
  VertexArray array_;
  Shadows shadows_;
};

/// The faces that a plane cuts of the parts, in the order in which they have the place.
///
/// All of them lie in one plane, so depth can't tell which one is seen where parts lie in one another. The first one
/// drawn marks its samples and later ones leave them alone: no flicker, one draw call.
class CutBatch {
 public:
  CutBatch();
  void upload(const scene::Scene& scene, const Sent& sent, const std::vector<scene::CutFace>& faces);
  /// Draws with the program in use; changes the stencil test and puts it back. Returns the number of draw calls: 0
  /// or 1.
  int draw();

 private:
  BufferTexture faces_;
  BufferTexture triangles_;
  VertexArray array_;
  GLsizei corners_ = 0;
};

}  // namespace sillwright::render
