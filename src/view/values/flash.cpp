#include "view/values/flash.h"

#include <algorithm>
#include <iterator>
#include <map>

namespace sillwright::view {
namespace {

constexpr float kSameSize = 0.05F;  // mm

bool sameSize(const scene::Part& a, const scene::Part& b) {
  const glm::vec3 off = glm::abs(a.size - b.size);
  return std::max({off.x, off.y, off.z}) < kSameSize && a.material == b.material;
}

}  // namespace

std::vector<scene::Part> partsOf(const scene::Scene& scene, std::int32_t opening) {
  std::vector<scene::Part> parts;
  if (opening < 0) return parts;
  std::copy_if(scene.parts.begin(), scene.parts.end(), std::back_inserter(parts),
               [&](const scene::Part& part) { return part.opening == opening; });
  return parts;
}

std::vector<std::uint32_t> changedParts(const std::vector<scene::Part>& before, const scene::Scene& after,
                                        std::int32_t opening) {
  std::map<scene::PartKind, std::vector<const scene::Part*>> known;
  for (const scene::Part& part : before) known[part.kind].push_back(&part);
  std::map<scene::PartKind, std::size_t> next;
  std::vector<std::uint32_t> changed;
  for (std::uint32_t i = 0; i < after.parts.size(); ++i) {
    const scene::Part& part = after.parts[i];
    if (part.opening != opening) continue;
    const auto& same_kind = known[part.kind];
    const std::size_t place = next[part.kind]++;
    if (place >= same_kind.size() || !sameSize(*same_kind[place], part)) changed.push_back(i);
  }
  return changed;
}

}  // namespace sillwright::view
