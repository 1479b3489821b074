// OBJ and its materials.

#include <array>
#include <charconv>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/words.h"
#include "exchange/model.h"
#include "exchange/model_parts.h"

namespace sillwright::exchange {
namespace {

/// After a blank.
template <class Number>
void append(std::string& out, Number value) {
  std::array<char, 32> room{' '};
  if (value == 0) value = 0;  // no minus before it
  out.append(room.data(), std::to_chars(room.data() + 1, room.data() + room.size(), value).ptr);
}

/// A name as OBJ readers take it: on one line, without blanks.
std::string bare(std::string_view name) {
  std::string out = base::oneLine(name, 200);
  for (char& c : out) {
    if (c == ' ' || c == '#') c = '_';
  }
  return out;
}

void writePart(std::string& out, const std::vector<Polygon>& surface, std::size_t& corners) {
  for (const Polygon& polygon : surface) {
    for (std::size_t i = 0; i < polygon.corners; ++i) {
      out += 'v';
      for (int axis = 0; axis < 3; ++axis) append(out, polygon.corner[i][axis]);
      out += '\n';
    }
  }
  for (const Polygon& polygon : surface) {
    out += 'f';
    for (std::size_t i = 0; i < polygon.corners; ++i) append(out, ++corners);
    out += '\n';
  }
}

std::string materials(const std::set<scene::Material>& used) {
  std::string out;
  for (const scene::Material material : used) {
    const Look look = lookOf(material);
    out += "newmtl " + bare(look.name) + "\nKd";
    for (std::size_t i = 0; i < 3; ++i) append(out, look.colour[i]);
    out += "\nd";
    append(out, look.colour[3]);
    out += "\nillum 1\n";
  }
  return out;
}

}  // namespace

ObjFiles objFiles(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice,
                  const std::string& mtl_name) {
  ObjFiles files;
  std::string& out = files.obj;
  out = "# " + base::oneLine(job.title, 200) + ": millimetres, z up\nmtllib " + mtl_name + "\n";
  const PartIndex index(scene);
  std::set<scene::Material> used;
  std::size_t corners = 0;
  std::string group;
  for (std::size_t i = 0; i < scene.parts.size(); ++i) {
    const auto surface = index.surfaceOf(i);
    if (surface.empty()) continue;
    const scene::Part& part = scene.parts[i];
    used.insert(part.material);
    if (const std::string wall = bare(wallName(part, job)); wall != group) out += "g " + (group = wall) + "\n";
    // The number keeps names apart: readers join objects of one name.
    out += "o " + bare(partName(part, job, practice)) + "_" + std::to_string(i);
    out += "\nusemtl " + bare(lookOf(part.material).name) + "\n";
    writePart(out, surface, corners);
  }
  files.mtl = materials(used);
  return files;
}

}  // namespace sillwright::exchange
