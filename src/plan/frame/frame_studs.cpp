#include "plan/frame/frame_layout.h"

namespace sillwright::plan::framing {

namespace {

/// What a piece of a stud ends on where something cut it.
struct Meets {
  enum class What : std::uint8_t { Plate, Trimmer, LintelTop, Other } what = What::Plate;
  std::size_t hole = 0;  // index of the hole it belongs to; unused for a plate
};

struct Piece {
  Span z;
  Meets foot;
  Meets top;
};

/// Something that a stud may not run through.
struct Cut {
  Span z;
  Meets below;  ///< What a piece that ends under it meets,
  Meets above;  ///< and one that stands on it.
};

class Placer {
 public:
  Placer(const Layout& layout, const practice::Framing& rules, std::vector<LeftOut>& left_out)
      : layout_(layout), placed_of_(layout.holes.size()), shortest_nailed_(shortestNailed(rules)), left_out_(left_out) {
    const double commons = layout.wall->length / std::max(layout.wall->spacing, layout.thickness);
    uprights_.reserve(static_cast<std::size_t>(commons) * 2 + layout.holes.size() * 12 + 8);
  }

  std::vector<Upright> place() {
    placeSideStuds();  // first, because common studs are cut by them
    placeCommonStuds();
    std::sort(uprights_.begin(), uprights_.end(),  // noggings look for neighbours in this order
              [](const Upright& a, const Upright& b) { return a.x.lo != b.x.lo ? a.x.lo < b.x.lo : a.z.lo < b.z.lo; });
    return std::move(uprights_);
  }

 private:
  /// Lower openings first: what stands on their lintels comes after them.
  void placeSideStuds() {
    const auto& holes = layout_.holes;
    std::vector<std::size_t> order(holes.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    if (layout_.stacked) {  // else nothing stands on another's lintel
      std::stable_sort(order.begin(), order.end(),
                       [&](std::size_t a, std::size_t b) { return holes[a].head < holes[b].head; });
    }
    for (const std::size_t i : order) {
      const std::size_t first = uprights_.size();
      for (const End end : kEnds) {
        for (int n = 0; n < holes[i].got[at(end)]; ++n) placeSideStud(i, end, n);
      }
      placed_of_[i] = {first, uprights_.size()};  // empty until here: a stud is cut only by those placed before it
    }
  }

  void placeSideStud(std::size_t index, End end, int n) {
    const Hole& hole = layout_.holes[index];
    const bool bears = n < hole.bearing;  // the studs nearest the opening carry the lintel
    const Span x = hole.column(end, n, layout_.thickness);
    pieces_.assign(1, {{layout_.floor, bears ? hole.headOver(x).hi : kUnderPlate}, {}, {}});
    if (layout_.stacked) {  // else no other opening cuts its studs
      layout_.near(x, [&](std::size_t other) {
        if (other != index) cutBy(other, x);
      });
    }
    for (const Piece& piece : pieces_) {  // a piece cut short by another opening ends square
      const bool to_slope = bears && hole.follows_roof() && piece.top.what == Meets::What::Plate;
      add({x, piece.z, bears ? MemberPart::BearingStud : MemberPart::JambStud, hole.opening->index,
           to_slope ? &hole : nullptr});
    }
  }

  void placeCommonStuds() {
    const double length = layout_.wall->length;
    const double t = layout_.thickness;
    const double spacing = std::max(layout_.wall->spacing, t);  // a spacing of 0 would never end
    placeCommonStud({0, std::min(t, length)});                  // flush with the end; a wall may be shorter than that
    if (length < 2 * t - kTouching) return;                     // one stud fills the wall
    for (int k = 1;; ++k) {
      const Span x{k * spacing - t / 2, k * spacing + t / 2};
      if (x.hi > length - t + kTouching) break;      // the last stud stands there
      if (x.lo > t - kTouching) placeCommonStud(x);  // the end stud stands there already
    }
    placeCommonStud({length - t, length});
  }

  void placeCommonStud(Span x) {
    pieces_.assign(1, {{layout_.floor, kUnderPlate}, {}, {}});
    layout_.near(x, [&](std::size_t hole) {
      if (x.overlaps(layout_.holes[hole].whole(layout_.thickness))) cutBy(hole, x);  // `near` visits more than that
    });
    for (const Piece& piece : pieces_) {
      const auto plate = Meets::What::Plate;  // the top or the bottom plate
      if (piece.foot.what == plate && piece.top.what == plate) {
        add({x, piece.z, MemberPart::CommonStud, -1});
      } else if (piece.foot.what == Meets::What::LintelTop) {
        const Hole& below = layout_.holes[piece.foot.hole];  // it belongs to the hole below, whatever ends it above
        add({x, piece.z, MemberPart::JackStudAbove, below.opening->index, below.follows_roof() ? &below : nullptr});
      } else if (piece.top.what == Meets::What::Trimmer && piece.foot.what == plate) {
        add({x, piece.z, MemberPart::JackStudBelow, layout_.holes[piece.top.hole].opening->index});
      }
    }
  }

  /// Takes out of the pieces what hole `index` with its trimmer, lintel and side studs needs.
  void cutBy(std::size_t index, Span x) {
    const Hole& hole = layout_.holes[index];
    const Meets other{Meets::What::Other, index};
    if (x.overlaps(hole.clear)) {
      const Meets trimmer{hole.has_trimmer ? Meets::What::Trimmer : Meets::What::Other, index};
      cut({hole.kept_clear(x), trimmer, other});  // `Other`: without a trimmer no stud ends under it
    }
    if (hole.has_lintel && x.overlaps(hole.lintel)) {
      cut({{hole.headOver(x).lo, hole.lintelTopOver(x).lo}, other, {Meets::What::LintelTop, index}});
    }
    for (std::size_t i = placed_of_[index].first; i < placed_of_[index].second; ++i) {  // side studs take its place
      if (x.overlaps(uprights_[i].x)) cut({uprights_[i].z, other, other});
    }
  }

  void cut(const Cut& by) {
    kept_.clear();
    for (const Piece& piece : pieces_) {
      if (!piece.z.overlaps(by.z)) {
        kept_.push_back(piece);
        continue;
      }
      if (by.z.lo > piece.z.lo + kTouching) kept_.push_back({{piece.z.lo, by.z.lo}, piece.foot, by.below});
      if (by.z.hi < piece.z.hi - kTouching) kept_.push_back({{by.z.hi, piece.z.hi}, by.above, piece.top});
    }
    std::swap(pieces_, kept_);
  }

  /// Adds an upright where there is room for it under the plates.
  void add(Upright stud) {
    const Span x = stud.x;
    Span& z = stud.z;
    const double low = layout_.under.lowest(x.lo, x.hi);
    if (z.hi > low) z.hi = z.hi >= layout_.under.highest(x.lo, x.hi) ? kUnderPlate : low;
    const double length = std::min(z.hi, low) - z.lo;
    if (length < kShortest) return;  // so short a rest is left out without a word
    const bool jack = stud.part == MemberPart::JackStudBelow || stud.part == MemberPart::JackStudAbove;
    if (jack && length < shortest_nailed_) {
      left_out_.push_back({stud.part, stud.opening, length});
    } else {
      uprights_.push_back(stud);
    }
  }

  const Layout& layout_;
  std::vector<Upright> uprights_;
  std::vector<std::pair<std::size_t, std::size_t>> placed_of_;  ///< Side studs of each hole in uprights_.
  std::vector<Piece> pieces_;
  std::vector<Piece> kept_;
  double shortest_nailed_ = kShortest;
  std::vector<LeftOut>& left_out_;
};

}  // namespace

std::vector<Upright> placeUprights(const Layout& layout, const practice::Framing& rules,
                                   std::vector<LeftOut>& left_out) {
  return Placer(layout, rules, left_out).place();
}

}  // namespace sillwright::plan::framing
