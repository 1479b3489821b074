/// Tracks which solids are on the graphics card, at which places, and which have changed since they were sent.
///
/// While an opening is dragged in a large job nearly all solids stay as they are, and only the changed ones are
/// prepared and sent again. Changes are found by comparison, so that no caller has to report them. A scene is a row of
/// blocks (a wall, an opening: its outer groups). Each block has places of its own on the card with some to spare, so
/// that one packer more moves nothing but what follows it in its block. Inside this room only.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

#include "scene/scene.h"

namespace sillwright::render {

/// A part by its block and its number there: the same while other blocks gain and lose parts. So are its shade of grain
/// and what the card knows it by.
struct PartKey {
  std::int32_t block = -1;
  std::int32_t local = -1;
  bool operator==(const PartKey&) const = default;
};

inline constexpr std::size_t kEmpty = std::numeric_limits<std::size_t>::max();

/// Solids that follow one another, in the scene and on the card.
struct Stretch {
  std::size_t place = 0;  ///< Of the first, on the card.
  std::size_t solid = 0;  ///< Its number in the scene; kEmpty: these places hold nothing any more.
  std::size_t count = 0;
};

class Sent {
 public:
  /// Assigns places to the scene's solids and returns the solids to send. Those are all, with new places, where a block
  /// has outgrown its places or the number of blocks has changed.
  [[nodiscard]] std::vector<Stretch> take(const scene::Scene& scene);

  /// Places whose solid differs from the one before, or is gone: fewer than are sent.
  [[nodiscard]] const std::vector<std::size_t>& changedPlaces() const { return changed_places_; }
  /// Of a part's solids.
  [[nodiscard]] std::vector<std::size_t> placesOf(PartKey key) const;

  /// Whether the last `take` found a wall or a floor changed, or laid all out anew: so must the contact shadows be.
  [[nodiscard]] bool groundChanged() const { return ground_changed_; }

  /// Places on the card, those to spare included.
  [[nodiscard]] std::size_t places() const { return kept_.size(); }
  [[nodiscard]] std::size_t blocks() const { return blocks_.size(); }
  /// Of a part of the scene that was taken last; below 0: of none.
  [[nodiscard]] PartKey keyOf(std::int64_t part) const;

 private:
  struct Block {
    std::size_t first_part = 0;
    std::size_t first_solid = 0;  ///< In the scene.
    std::size_t solids = 0;
    std::size_t place = 0;
    std::size_t room = 0;
  };
  /// A solid as far as it is drawn; its part by the number in the block, one that no block has where the place is
  /// empty.
  struct Kept {
    scene::Solid solid{.part = std::numeric_limits<std::uint32_t>::max()};
    scene::PartStep step{};
    scene::Material material{};
    scene::Layer layer{};
    std::int32_t wall = -1;
    std::int32_t opening = -1;
    bool operator==(const Kept&) const = default;
  };

  /// The stretches of a block that have changed.
  struct Difference {
    std::vector<Stretch> stretches;
    std::vector<std::size_t> places;
    bool floor = false;
  };

  static std::vector<Block> blocksOf(const scene::Scene& scene);
  static Kept keptOf(const scene::Scene& scene, const scene::Solid& solid, std::size_t first_part);
  bool fits(std::vector<Block>& blocks) const;
  void layOut(std::vector<Block>& blocks);
  Difference keep(const scene::Scene& scene, const Block& now, std::size_t held, const std::vector<char>& moved_walls);

  std::vector<Block> blocks_;
  std::vector<Kept> kept_;  ///< By place.
  std::vector<scene::WallFrame> walls_;
  std::vector<std::size_t> changed_places_;
  bool ground_changed_ = true;
};

}  // namespace sillwright::render
