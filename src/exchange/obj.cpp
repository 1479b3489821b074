// OBJ and its materials.

#include <algorithm>
#include <charconv>
#include <set>
#include <string_view>

#include "base/words.h"
#include "exchange/model.h"
#include "exchange/model_parts.h"

namespace sillwright::exchange {
namespace {

/// After a blank.
template <class Number>
void append(std::string& out, Number value) {
  std::array<char, 32> room{' '};  // a number's shortest text has at most 24 characters
  if (value == 0) value = 0;       // no minus before it
  out.append(room.data(), std::to_chars(room.data() + 1, room.data() + room.size(), value).ptr);
}

/// A name as OBJ readers take it: on one line, without blanks.
std::string bare(std::string_view name) {
  std::string out = base::oneLine(name, 200);  // a line end would begin another statement
  std::replace(out.begin(), out.end(), ' ', '_');
  std::replace(out.begin(), out.end(), '#', '_');  // it would begin a remark
  return out;
}

void writePart(std::string& out, const std::vector<Polygon>& surface, std::size_t& corners) {
  for (const Polygon& polygon : surface) {
    for (const glm::vec3& corner : polygon) {
      out += 'v';
      for (int axis = 0; axis < 3; ++axis) append(out, corner[axis]);
      out += '\n';
    }
  }
  for (const Polygon& polygon : surface) {
    out += 'f';
    for (std::size_t i = 0; i < polygon.size(); ++i) append(out, ++corners);  // counted from 1 through the whole file
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
    out += "\nillum 1\n";  // the model of light that has no highlights
  }
  return out;
}

}  // namespace

std::string obj(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice,
                const std::string& mtl_name, const base::Sink& sink) {
  constexpr std::size_t kPiece = 1U << 16U;  // a file takes few large pieces faster than many small ones
  std::string out = "# " + base::oneLine(job.title, 200) + ": millimetres, z up\nmtllib " + mtl_name + "\n";
  const PartIndex index(scene);
  UniqueNames unique, objects;  // `unique` makes the names that all formats share
  const std::vector<std::string> names = partNames(scene, job, practice, unique);
  std::set<scene::Material> used;
  std::size_t corners = 0;
  std::string group;
  for (std::size_t i = 0; i < scene.parts.size(); ++i) {
    const auto surface = index.surfaceOf(i);
    if (surface.empty()) continue;  // nothing of it can be seen
    const scene::Part& part = scene.parts[i];
    used.insert(part.material);  // the other file describes these alone
    if (const std::string wall = bare(wallName(part, job)); wall != group) out += "g " + (group = wall) + "\n";
    // Readers join objects of one name: those that differ in their blanks are kept apart.
    out += "o " + bare(objects.take(bare(names[i])));
    out += "\nusemtl " + bare(lookOf(part.material).name) + "\n";
    writePart(out, surface, corners);
    if (out.size() < kPiece) continue;
    sink(out);
    out.clear();
  }
  sink(out);
  return materials(used);
}

}  // namespace sillwright::exchange
