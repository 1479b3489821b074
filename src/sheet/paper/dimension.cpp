#include "sheet/paper/dimension.h"

#include <array>
#include <cmath>

#include "sheet/paper/spread.h"

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

Vec place(Along along, double at, double across) { return along == Along::X ? Vec{at, across} : Vec{across, at}; }

/// The dimension line itself with its ticks and extension lines.
void drawLines(Painter& painter, const Chain& chain) {
  const auto& stations = chain.stations;
  painter.line(place(chain.along, stations.front().at, chain.level),
               place(chain.along, stations.back().at, chain.level), kFineLine);
  for (const Station& station : stations) {
    const double start = station.from + kOff * chain.away;
    const double end = chain.level + kPast * chain.away;
    if ((end - start) * chain.away > 0) {
      painter.line(place(chain.along, station.at, start), place(chain.along, station.at, end), kHairLine);
    }
    drawTick(painter, place(chain.along, station.at, chain.level));
  }
}

/// A figure past the end of its chain, in line with it.
void drawPastEnd(Painter& painter, const Chain& chain, double end, double way, const std::string& text,
                 const Lettering& how) {
  const double width = painter.widthOf(text, how);
  painter.text(place(chain.along, end + way * (kTick + kAround / 2 + width / 2), chain.level - kOverLine), text, how);
}

}  // namespace

void drawTick(Painter& painter, Vec at) {
  painter.line({at.x - kTick, at.y + kTick}, {at.x + kTick, at.y - kTick}, {pen::kBold});
}

double drawChain(Painter& painter, const Chain& chain) {
  const Group group = painter.group("dimensions");
  if (chain.stations.size() < 2) return 0;
  drawLines(painter, chain);
  const Lettering how{.align = Align::Centre, .upright = chain.along == Along::Y, .clear = true};
  // Above a level line, left of an upright one. Figures without room stand in rows on the other side.
  const double over = chain.level - kOverLine;
  std::vector<double> rows;  // where the last figure of each stands
  double reach = 0;
  for (std::size_t i = 0; i + 1 < chain.stations.size(); ++i) {
    const double a = chain.stations[i].at;
    const double b = chain.stations[i + 1].at;
    const double middle = (a + b) / 2;
    painter.log().measures.push_back({chain.texts[i], place(chain.along, a, chain.level),
                                      place(chain.along, b, chain.level), chain.values[i], chain.per_mm});
    if (chain.texts[i].empty()) continue;
    const double width = painter.widthOf(chain.texts[i], how);
    if (width + kAround <= std::abs(b - a)) {
      painter.text(place(chain.along, middle, over), chain.texts[i], how);
      continue;
    }
    if (chain.past_last && i + 2 == chain.stations.size()) {
      drawPastEnd(painter, chain, b, b > a ? 1 : -1, chain.texts[i], how);
      continue;
    }
    std::size_t row = 0;
    // An upright chain may run up the page: rows are filled from whichever side they come.
    while (row < rows.size() && std::abs(middle - rows[row]) < width + 1.0) ++row;
    if (row == rows.size()) rows.emplace_back();
    rows[row] = middle;
    const double level = chain.level + kPast + 0.6 + how.capitals + static_cast<double>(row) * kRow;
    painter.text(place(chain.along, middle, level), chain.texts[i], how);
    reach = std::max(reach, level - chain.level);
  }
  return reach;
}

void drawDimension(Painter& painter, Along along, double level, double away, double per_mm, Station from, Station to,
                   double value, const std::string& text) {
  const Chain chain{.along = along,
                    .level = level,
                    .away = away,
                    .per_mm = per_mm,
                    .stations = {from, to},
                    .values = {value},
                    .texts = {text}};
  drawChain(painter, chain);
}

double drawRunning(Painter& painter, const Running& running) {
  const Group group = painter.group("dimensions");
  if (running.marks.empty()) return 0;
  const double across = running.level;
  const double begin = running.start.value_or(running.origin);
  const double first = std::min(begin, running.marks.front().at);
  const double last = std::max(begin, running.marks.back().at);
  painter.line(place(running.along, first, across), place(running.along, last, across), kFineLine);
  if (begin == running.origin) painter.circle(place(running.along, running.origin, across), 0.9, kFineLine);
  const auto room = static_cast<std::size_t>(std::max(1.0, std::floor((running.high - running.low) / kPitch)));
  const std::size_t step = (running.marks.size() + room - 1) / room;
  std::vector<const RunningMark*> shown;
  std::vector<double> wanted;
  for (std::size_t i = 0; i < running.marks.size(); ++i) {
    const RunningMark& mark = running.marks[i];
    drawTick(painter, place(running.along, mark.at, across));
    painter.log().measures.push_back({mark.text, place(running.along, running.origin, across),
                                      place(running.along, mark.at, across), mark.value, running.per_mm});
    if (i % step != 0) continue;
    shown.push_back(&mark);
    wanted.push_back(mark.at);
  }
  const std::vector<double> sizes(wanted.size(), kPitch);
  const std::vector<double> places = spread(wanted, sizes, running.low, running.high);
  Lettering how{.upright = running.along == Along::X};
  // Upright figures are read from the right: below the line they end at it, above they begin at it.
  how.align = (running.along == Along::X) == (running.away > 0) ? Align::Right : Align::Left;
  double reach = 0;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const double fan = across + running.away * kFanOut;
    const std::array<Vec, 3> leader{place(running.along, shown[i]->at, across + running.away * 0.6),
                                    place(running.along, places[i], fan - running.away * 0.8),
                                    place(running.along, places[i], fan)};
    painter.path(leader, kHairLine);
    const double start = fan + running.away * 0.8;
    painter.text(place(running.along, places[i] + how.capitals / 2, start), shown[i]->text, how);
    reach = std::max(reach, kFanOut + 0.8 + painter.widthOf(shown[i]->text, how));
  }
  return reach;
}

void drawLeader(Painter& painter, Vec point, Vec elbow, Vec end) {
  const std::array<Vec, 3> line{point, elbow, end};
  painter.path(line, {pen::kHair});
  painter.disc(point, 0.5, kWhite);
  painter.disc(point, 0.4, kBlack);
}

void drawScaleBar(Painter& painter, Vec left, const Scale& scale, bool in_feet) {
  const Group group = painter.group("dimensions");
  constexpr double kFoot = 304.8;
  constexpr double kMost = 34;  // mm of paper
  const double unit = in_feet ? kFoot : 1000.0;
  static constexpr std::array<double, 9> kLengths{50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1};
  double whole = kLengths.back();
  for (const double candidate : kLengths) {
    if (candidate * unit * scale.per_mm <= kMost) {
      whole = candidate;
      break;
    }
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
  const double inches = whole * 12;
  std::string end;
  if (!in_feet) {
    end = std::to_string(std::lround(whole * 1000)) + " mm";
  } else if (whole >= 1) {
    end = std::to_string(std::lround(whole)) + " ft";
  } else if (std::abs(inches - std::round(inches)) < 0.01) {
    end = std::to_string(std::lround(inches)) + " in";
  }
  painter.text({left.x + paper + 1.2, left.y}, end);
}

}  // namespace sillwright::sheet
