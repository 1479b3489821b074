/// Inside the room: what the model formats need of a scene, and what all files call its parts.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <glm/glm.hpp>
#include <string>
#include <unordered_map>
#include <vector>

#include "job/job.h"
#include "practice/practice.h"
#include "scene/scene.h"

namespace sillwright::exchange {

/// A material as other programs show it: named, and coloured as in the viewer.
struct Look {
  const char* name;
  double rough;
  std::array<double, 4> colour{};  ///< Red, green, blue as they go to the screen, opacity; 0 … 1.
};
[[nodiscard]] Look lookOf(scene::Material material);

/// The step at which a part comes into being, in plain words; "from the start" where it needs none.
[[nodiscard]] std::string stepName(const scene::Part& part);
/// What the part belongs to, by name: its wall, or "site".
[[nodiscard]] std::string wallName(const scene::Part& part, const job::Job& job);

/// What a part is called, before it is told from others of that name: "N1 jamb stud". `of`: its opening, or its wall.
[[nodiscard]] inline std::string partName(const std::string& of, const std::string& kind) { return of + " " + kind; }

/// Gives each thing a name of its own: what is asked for, with a number behind it where that is taken.
class UniqueNames {
 public:
  [[nodiscard]] std::string take(const std::string& wanted) {
    std::string name = wanted;
    for (std::size_t& count = taken_[wanted]; count++ > 0;) {
      name = wanted + " " + std::to_string(count);
      if (taken_.emplace(name, 1).second) break;
    }
    return name;
  }

 private:
  std::unordered_map<std::string, std::size_t> taken_;
};

/// The name of each part of the scene, the same in every file: "N1 jamb stud", of none of the openings "jetty stud 3".
/// None of them is taken again.
[[nodiscard]] std::vector<std::string> partNames(const scene::Scene& scene, const job::Job& job,
                                                 const practice::Practice& practice, UniqueNames& names);

/// A wall's own axes in the world, in doubles: turned about z and moved.
struct Axes {
  glm::dvec3 origin{0.0};
  double turn = 0;  ///< Anticlockwise on plan, radians.
  [[nodiscard]] glm::dvec3 toLocal(glm::dvec3 world) const;
};
/// Of a part's wall; of the world where it is of none.
[[nodiscard]] Axes axesOf(const scene::Scene& scene, std::int32_t wall);

/// A polygon of a part's surface, anticlockwise from outside; three or four corners, no two alike.
using Polygon = std::vector<glm::vec3>;
using Polygons = std::vector<Polygon>;

/// Where the solids and mesh uses of each part are.
class PartIndex {
 public:
  explicit PartIndex(const scene::Scene& scene);
  /// The surfaces of the part's solids and meshes, each closed, in the world, mm. Polygons without area are left out.
  [[nodiscard]] std::vector<Polygons> shellsOf(std::size_t part) const;
  /// All of them as one.
  [[nodiscard]] Polygons surfaceOf(std::size_t part) const;

 private:
  const scene::Scene& scene_;
  std::vector<std::size_t> first_solid_;           // of each part, and one past the last
  std::vector<std::vector<std::size_t>> uses_of_;  // of each part
};

}  // namespace sillwright::exchange
