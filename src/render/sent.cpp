#include "render/sent.h"

#include <algorithm>

#include "base/in_parallel.h"

namespace sillwright::render {
namespace {

constexpr std::size_t kWorthParting = 64;        // solids that stay between two stretches; fewer are sent along
constexpr std::size_t kBlocksWorthAThread = 32;  // fewer are compared before another thread has woken
constexpr std::size_t kSpareOneIn = 8;           // of a block's solids …
constexpr std::size_t kLeastSpare = 8;           // … and a few packers for the smallest

/// The walls of `now` that are not as they were.
std::vector<char> movedWalls(const std::vector<scene::WallFrame>& before, const std::vector<scene::WallFrame>& now) {
  std::vector<char> moved(now.size(), 1);
  for (std::size_t i = 0; i < std::min(before.size(), now.size()); ++i) moved[i] = before[i] == now[i] ? 0 : 1;
  return moved;
}

}  // namespace

/// The outer groups; one of everything, where the scene has none.
std::vector<Sent::Block> Sent::blocksOf(const scene::Scene& scene) {
  std::vector<Block> blocks;
  std::size_t solid = 0;
  std::size_t use = 0;
  const auto add = [&](std::size_t solids, std::size_t uses) {
    Block block{scene.parts.size(), solid, solids, 0, 0};
    if (solids > 0) block.first_part = scene.solids[solid].part;
    if (uses > 0) block.first_part = std::min<std::size_t>(block.first_part, scene.uses[use].part);
    blocks.push_back(block);
    solid += solids;
    use += uses;
  };
  for (std::size_t i = 0; i < scene.groups.size(); i += 1 + scene.groups[i].inner) {
    add(scene.groups[i].solids, scene.groups[i].uses);
  }
  if (blocks.empty()) add(scene.solids.size(), scene.uses.size());
  // A block of nothing begins where the next one does: parts are looked up by where blocks begin.
  for (std::size_t i = blocks.size() - 1; i > 0; --i) {
    blocks[i - 1].first_part = std::min(blocks[i - 1].first_part, blocks[i].first_part);
  }
  return blocks;
}

Sent::Kept Sent::keptOf(const scene::Scene& scene, const scene::Solid& solid, std::size_t first_part) {
  const scene::Part& part = scene.parts.at(solid.part);
  Kept kept{solid, part.step, part.material, part.layer, part.wall, part.opening};
  kept.solid.part -= static_cast<std::uint32_t>(first_part);  // a number in its block stays while other blocks grow
  return kept;
}

/// Whether each block fits the places it had; they are then its places.
bool Sent::fits(std::vector<Block>& blocks) const {
  if (blocks.size() != blocks_.size()) return false;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    if (blocks[i].solids > blocks_[i].room) return false;  // it has outgrown its places: all are laid out anew
    blocks[i].place = blocks_[i].place;
    blocks[i].room = blocks_[i].room;
  }
  return true;
}

void Sent::layOut(std::vector<Block>& blocks) {
  std::size_t place = 0;
  for (Block& block : blocks) {
    block.place = place;
    block.room = block.solids == 0 ? 0 : block.solids + std::max(kLeastSpare, block.solids / kSpareOneIn);
    place += block.room;
  }
  kept_.assign(place, {});  // these are unlike any solid, so all are sent
}

/// Keeps the block as it is now. `held`: so many of its places held something.
Sent::Difference Sent::keep(const scene::Scene& scene, const Block& now, std::size_t held,
                            const std::vector<char>& moved_walls) {
  Difference found;
  // Solids that differ make stretches; what lies between two near ones is sent along, in one call.
  std::vector<Stretch>& changed = found.stretches;
  for (std::size_t i = 0; i < now.solids; ++i) {
    const Kept is = keptOf(scene, scene.solids[now.first_solid + i], now.first_part);
    Kept& was = kept_[now.place + i];
    const bool moved = is.wall >= 0 && moved_walls.at(static_cast<std::size_t>(is.wall)) != 0;  // its frame is sent too
    if (!moved && was == is) continue;
    found.floor = found.floor || was.material == scene::Material::Floor || is.material == scene::Material::Floor;
    was = is;
    const std::size_t place = now.place + i;
    found.places.push_back(place);
    if (changed.empty() || place > changed.back().place + changed.back().count + kWorthParting) {
      changed.push_back({place, now.first_solid + i, 0});
    }
    changed.back().count = place + 1 - changed.back().place;
  }
  for (std::size_t i = now.solids; i < held; ++i) {  // places that held a solid before
    found.floor = found.floor || kept_[now.place + i].material == scene::Material::Floor;
    kept_[now.place + i] = Kept{};
    found.places.push_back(now.place + i);
  }
  if (held > now.solids) changed.push_back({now.place + now.solids, kEmpty, held - now.solids});  // not drawn any more
  return found;
}

std::vector<Stretch> Sent::take(const scene::Scene& scene) {
  std::vector<Block> now = blocksOf(scene);
  const std::vector<char> moved = movedWalls(walls_, scene.walls);
  const bool stay = fits(now);
  if (!stay) layOut(now);
  std::vector<Difference> found(now.size());
  base::inParallel(now.size(), kBlocksWorthAThread, {}, [&](std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i)
      found[i] = keep(scene, now[i], stay ? blocks_[i].solids : now[i].room, moved);  // they may hold others' solids
  });
  std::vector<Stretch> changed;
  changed_places_.clear();
  ground_changed_ =
      !stay || walls_.size() != scene.walls.size() || std::find(moved.begin(), moved.end(), 1) != moved.end();
  for (const Difference& each : found) {
    ground_changed_ = ground_changed_ || each.floor;
    changed.insert(changed.end(), each.stretches.begin(), each.stretches.end());
    changed_places_.insert(changed_places_.end(), each.places.begin(), each.places.end());
  }
  blocks_ = std::move(now);  // last: those of the scene before are compared above
  walls_ = scene.walls;
  return changed;
}

std::vector<std::size_t> Sent::placesOf(PartKey key) const {
  std::vector<std::size_t> places;
  if (key.block < 0) return places;
  const Block& block = blocks_.at(static_cast<std::size_t>(key.block));
  for (std::size_t place = block.place; place < block.place + block.solids; ++place) {
    if (kept_[place].solid.part == static_cast<std::uint32_t>(key.local)) places.push_back(place);
  }
  return places;
}

PartKey Sent::keyOf(std::int64_t part) const {
  if (part < 0) return {};
  const auto after = std::upper_bound(blocks_.begin(), blocks_.end(), static_cast<std::size_t>(part),
                                      [](std::size_t value, const Block& block) { return value < block.first_part; });
  if (after == blocks_.begin()) return {};
  const Block& block = *(after - 1);
  return {static_cast<std::int32_t>(after - 1 - blocks_.begin()),
          static_cast<std::int32_t>(part - static_cast<std::int64_t>(block.first_part))};
}

}  // namespace sillwright::render
