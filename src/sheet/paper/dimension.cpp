#include "sheet/paper/dimension.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "words/text.h"

namespace sillwright::sheet {
namespace {

constexpr double kTick = 1.1;      // half of a tick's run
constexpr double kPast = 1.2;      // extension lines past the dimension line
constexpr double kOff = 1.0;       // gap between the drawing and their start
constexpr double kOverLine = 0.8;  // gap between a figure and its line
constexpr double kAround = 1.6;    // a figure's clearance to its ticks, both sides together
constexpr double kRow = 3.6;       // from one row of figures to the next
constexpr double kFanOut = 3.5;    // depth in which running figures fan out
constexpr double kPitch = 3.1;     // of running figures
constexpr Stroke kFineLine{pen::kFine};
constexpr Stroke kHairLine{pen::kHair};

/// A run of labels that touch: pool-adjacent-violators of isotonic regression.
struct Pool {
  double sum = 0;
  std::size_t count = 0;
  [[nodiscard]] double mean() const { return sum / static_cast<double>(count); }
};

/// A place on the page, given along a dimension line and across it.
Vec place(Along along, double at, double across) { return along == Along::X ? Vec{at, across} : Vec{across, at}; }

/// Where a place of the drawing stands along a dimension line of the page.
double onPage(Along along, const View& view, double at) {
  return along == Along::X ? view.at(at, 0).x : view.at(0, at).y;
}

}  // namespace

void drawTick(Painter& painter, Vec at) {
  painter.line({at.x - kTick, at.y + kTick}, {at.x + kTick, at.y - kTick}, {pen::kBold});
}

double drawChain(Painter& painter, Chain chain) {
  constexpr double kOnePlace = 0.5;  // mm of the drawing: the figure between would be 0
  std::ranges::sort(chain.at);
  const auto isSame = [](double a, double b) { return std::abs(a - b) < kOnePlace; };
  chain.at.erase(std::unique(chain.at.begin(), chain.at.end(), isSame), chain.at.end());
  if (chain.at.size() < 2) return 0;
  const Group group = painter.group("dimensions");
  std::vector<double> ticks;
  for (const double at : chain.at) ticks.push_back(onPage(chain.along, chain.view, at));
  const auto on = [&](double at, double across) { return place(chain.along, at, across); };
  painter.line(on(ticks.front(), chain.level), on(ticks.back(), chain.level), kFineLine);
  for (const double tick : ticks) {
    const double start = chain.from + kOff * chain.away;
    const double end = chain.level + kPast * chain.away;  // before its start where the line lies inside the drawing
    if ((end - start) * chain.away > 0) painter.line(on(tick, start), on(tick, end), kHairLine);
    drawTick(painter, on(tick, chain.level));
  }
  const Lettering how{.align = Align::Centre, .upright = chain.along == Along::Y, .clear = true};
  // Above a level line, left of an upright one. Figures without room stand in rows on the other side.
  const double over = chain.level - kOverLine;
  std::vector<double> rows;  // where the last figure of each stands
  double reach = 0;
  for (std::size_t i = 1; i < ticks.size(); ++i) {
    const double a = ticks[i - 1], b = ticks[i], middle = (a + b) / 2;
    const double value = chain.at[i] - chain.at[i - 1];
    const std::string text = words::figure(value, chain.display);
    painter.log().measures.push_back(
        {text, on(a, chain.level), on(b, chain.level), value, std::abs(chain.view.per_mm)});
    const double width = painter.widthOf(text, how);
    if (width + kAround <= std::abs(b - a)) {
      painter.text(on(middle, over), text, how);
      continue;
    }
    if (chain.past_last && i + 1 == ticks.size()) {  // only the last figure has free room beside it
      painter.text(on(b + (b > a ? 1 : -1) * (kTick + kAround / 2 + width / 2), over), text, how);
      continue;
    }
    std::size_t row = 0;
    // An upright chain may run up the page: rows are filled from whichever side they come.
    while (row < rows.size() && std::abs(middle - rows[row]) < width + 1.0) ++row;
    if (row == rows.size()) rows.emplace_back();
    rows[row] = middle;
    const double level = chain.level + kPast + 0.6 + how.capitals + static_cast<double>(row) * kRow;
    painter.text(on(middle, level), text, how);
    reach = std::max(reach, level - chain.level);
  }
  return reach;
}

double drawRunning(Painter& painter, Running running) {
  const Group group = painter.group("dimensions");
  if (running.marks.empty()) return 0;
  const auto along = [&](double at) { return onPage(running.along, running.view, at); };
  const auto on = [&](double at, double across) { return place(running.along, at, across); };
  std::ranges::stable_sort(running.marks, {}, [&](const RunningMark& mark) { return along(mark.at); });
  const double across = running.level;
  const double nought = along(0), begin = along(running.start);
  const double first = std::min(begin, along(running.marks.front().at));
  const double last = std::max(begin, along(running.marks.back().at));
  painter.line(on(first, across), on(last, across), kFineLine);
  if (begin == nought) painter.circle(on(nought, across), 0.9, kFineLine);  // a stretch's nought may be off the page
  const auto room = static_cast<std::size_t>(std::max(1.0, std::floor((running.high - running.low) / kPitch)));
  const std::size_t step = (running.marks.size() + room - 1) / room;  // every step-th mark has room for its figure
  std::vector<double> wanted;
  for (std::size_t i = 0; i < running.marks.size(); ++i) {
    const auto& [value, text] = running.marks[i];
    drawTick(painter, on(along(value), across));  // ticks for all marks, also those without a figure
    painter.log().measures.push_back({text, on(nought, across), on(along(value), across), value, running.view.per_mm});
    if (i % step == 0) wanted.push_back(along(value));
  }
  const std::vector<double> places =
      spread(wanted, std::vector<double>(wanted.size(), kPitch), running.low, running.high);
  Lettering how{.upright = running.along == Along::X};
  // Upright figures are read from the right: below the line they end at it, above they begin at it.
  how.align = (running.along == Along::X) == (running.away > 0) ? Align::Right : Align::Left;
  const double fan = across + running.away * kFanOut;
  double reach = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const std::string& text = running.marks[i * step].text;
    painter.path(std::array{on(wanted[i], across + running.away * 0.6), on(places[i], fan - running.away * 0.8),
                            on(places[i], fan)},
                 kHairLine);
    painter.text(on(places[i] + how.capitals / 2, fan + running.away * 0.8), text, how);  // its middle on the leader
    reach = std::max(reach, kFanOut + 0.8 + painter.widthOf(text, how));
  }
  return reach;
}

void drawLeader(Painter& painter, Vec point, Vec elbow, Vec end) {
  painter.path(std::array{point, elbow, end}, {pen::kHair});
  painter.disc(point, 0.5, kWhite);  // a white ring keeps the dot apart from hatching
  painter.disc(point, 0.4, kBlack);
}

void drawScaleBar(Painter& painter, Vec left, const Scale& scale, practice::Display display) {
  const Group group = painter.group("dimensions");
  constexpr double kFoot = 304.8;
  constexpr double kMost = 34;  // mm of paper
  const bool in_feet = display == practice::Display::InchFractions;
  const double unit = in_feet ? kFoot : 1000.0;
  double whole = 0.1;  // of units: at 1:5 not even 0.2 m has room
  for (const double length : {0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0}) {
    if (length * unit * scale.per_mm <= kMost) whole = length;
  }
  const double paper = whole * unit * scale.per_mm;
  constexpr double kHigh = 1.2;
  constexpr int kParts = 4;
  for (int i = 0; i < kParts; ++i) {
    const Box part{left.x + paper * i / kParts, left.y - kHigh, left.x + paper * (i + 1) / kParts, left.y};
    if (i % 2 == 0) painter.fillBox(part, kBlack);
    painter.box(part, kFineLine);
  }
  painter.text({left.x, left.y - kHigh - 1.0}, "0", {.align = Align::Centre});
  // In feet no scale is so large that less than half a foot has room alone.
  const std::string end = !in_feet     ? std::to_string(std::lround(whole * 1000)) + " mm"
                          : whole >= 1 ? std::to_string(std::lround(whole)) + " ft"
                                       : std::to_string(std::lround(whole * 12)) + " in";
  painter.text({left.x + paper + 1.2, left.y}, end);
}

std::vector<double> spread(std::span<const double> wanted, std::span<const double> sizes, double low, double high) {
  assert(wanted.size() == sizes.size() && std::ranges::is_sorted(wanted));
  const std::size_t n = wanted.size();
  std::vector<double> places(n);
  if (n == 0) return places;
  // With each label's least distance from the first subtracted, "none overlap" becomes "the places don't fall".
  std::vector<double> offset(n, 0.0);
  for (std::size_t i = 1; i < n; ++i) offset[i] = offset[i - 1] + (sizes[i - 1] + sizes[i]) / 2;
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < n; ++i) {
    pools.push_back({wanted[i] - offset[i], 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {  // they would overlap: one run
      const Pool last = pools.back();
      pools.pop_back();
      pools.back().sum += last.sum;
      pools.back().count += last.count;
    }
  }
  // The ends are bounds on every reduced place, and clamping keeps their order.
  const double least = low + sizes.front() / 2;
  const double most = std::max(least, high - sizes.back() / 2 - offset.back());  // too little room: packed from low on
  std::size_t i = 0;
  for (const Pool& pool : pools) {
    for (std::size_t k = 0; k < pool.count; ++k, ++i) places[i] = std::clamp(pool.mean(), least, most) + offset[i];
  }
  return places;
}

}  // namespace sillwright::sheet
