// The take-off's lists, column by column.

#include <cassert>
#include <cmath>
#include <map>
#include <utility>

#include "base/words.h"
#include "plan/frame/frame.h"
#include "practice/figure.h"
#include "takeoff/table.h"
#include "words/text.h"

namespace sillwright::takeoff {
namespace {

using words::number;

constexpr double kMmPerM = 1000;
constexpr double kFootOfMm = 12 * practice::kInch;
constexpr double kMlPerFluidOunce = 29.5735;  // of the United States

bool inInches(practice::Display display) { return display == practice::Display::InchFractions; }

// Columns, by what they hold.

Column text(std::string name) { return {std::move(name)}; }
Column lengths(std::string name) { return {std::move(name), Holds::Lengths}; }
Column length(std::string name) { return {std::move(name), Holds::Length, 1}; }
Column run(std::string name) { return {std::move(name), Holds::Run, 1}; }
Column area(std::string name) { return {std::move(name), Holds::Area, 2}; }
Column degrees(std::string name) { return {std::move(name), Holds::Number, 1}; }
Column count(std::string name) { return {std::move(name), Holds::Number}; }

/// A sum of lengths: "44.4 m", "145.7 ft".
std::string total(double mm, practice::Display display) {
  return inInches(display) ? number(mm / kFootOfMm) + " ft" : number(mm / kMmPerM) + " m";
}

std::string volume(double ml, practice::Display display) {
  return inInches(display) ? number(ml / kMlPerFluidOunce) + " fl oz" : number(ml, 0) + " ml";
}

/// "2 × 2382 (A) + 1200": equal ones that follow each other are told once.
std::string summed(const std::vector<std::string>& pieces) {
  std::string all;
  for (std::size_t i = 0; i < pieces.size();) {
    std::size_t same = i;
    while (same < pieces.size() && pieces[same] == pieces[i]) ++same;
    if (!all.empty()) all += " + ";
    if (same - i > 1) all += std::to_string(same - i) + " × ";
    all += pieces[i];
    i = same;
  }
  return all;
}

std::string lengthsOf(const std::vector<double>& lengths, practice::Display display) {
  std::vector<std::string> pieces;
  for (const double length : lengths) pieces.push_back(words::figure(length, display));
  return summed(pieces);
}

/// "44.4 m bought for 43.9 m of pieces; no plan buys less." or how far from proven it is.
std::string verdictOf(const CutPlan& plan, practice::Display display) {
  const std::string said = total(plan.bought, display) + " bought for " + total(plan.used, display) + " of pieces; ";
  if (plan.proven()) return said + "no plan buys less.";
  return said + "at most " + total(plan.bought - plan.bound, display) + " could still be saved.";
}

std::string graded(const std::string& size, const TimberSection& section) {
  return section.grade.empty() ? size : size + " " + section.grade;
}

/// "90 × 45 MGP10", its unit in the column's heading.
std::string sectionFigures(const TimberSection& section, practice::Display display) {
  return graded(words::figures(section.depth, section.thickness, display), section);
}

/// "jetty E": in a job of one wall its name goes without saying.
std::string markWords(const Marked& one, const job::Job& job) {
  return job.walls.size() > 1 ? job.walls[one.wall].name + " " + one.mark : one.mark;
}

/// "jetty E × 8, lane F × 6".
std::string marksWords(const TimberLine& line, const job::Job& job) {
  return base::joined(line.marks, ", ", [&](const Marked& one) {
    return markWords(one, job) + (line.marks.size() > 1 && one.count > 1 ? " × " + std::to_string(one.count) : "");
  });
}

Table timber(const Takeoff& takeoff, const job::Job& job, const practice::Practice& practice) {
  Table table{"timber",
              "Timber by section and length",
              {lengths("timber"), text("part"), length("length"), length("short point"), degrees("cut°"),
               count("count"), text("marks")}};
  bool raked = false;
  for (const auto& section : takeoff.timber) {
    for (const auto& line : section.lines) {
      const bool square = line.cut_degrees <= 0;
      raked = raked || !square;
      table.rows.push_back({sectionFigures(section, practice.display), plan::nameOf(line.part, practice.words),
                            line.length, line.short_length > 0 ? Cell{line.short_length} : Cell{},
                            square ? Cell{} : Cell{line.cut_degrees}, double(line.count), marksWords(line, job)});
    }
  }
  if (!table.rows.empty()) table.notes = {"Marks are those of the walls' elevations."};
  if (raked) table.notes.emplace_back("Raked pieces: length to the long point; the cut is how far off square.");
  return table;
}

Table timberToBuy(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"timber to buy", "Timber to buy", {lengths("timber"), run("stock length"), count("count")}};
  for (const auto& section : takeoff.timber) {
    std::map<double, int> count;  // bars of one stock are bought together
    for (const auto& bar : section.cutting.bars) count[bar.stock] += bar.times;
    for (const auto& [stock, times] : count) {
      table.rows.push_back({sectionFigures(section, practice.display), stock, double(times)});
    }
    const std::string name = graded(words::size(section.depth, section.thickness, practice.display), section);
    if (!section.cutting.bars.empty())
      table.notes.push_back(name + ": " + verdictOf(section.cutting, practice.display));
    for (const auto& piece : section.cutting.too_long) {
      table.notes.push_back(name + ": " + std::to_string(piece.count) + " of " +
                            words::length(piece.length, practice.display) +
                            " are longer than any stock length, and left out.");
    }
  }
  return table;
}

/// A section's pieces that are still to be cut, by length, each with its words: "2382 (jetty E, 22.5°)".
struct ToCut {
  static constexpr double kTenths = 10;
  std::map<long long, std::vector<std::pair<std::string, int>>> left;  ///< The next to cut last.

  ToCut(const TimberSection& section, const job::Job& job, practice::Display display) {
    for (const TimberLine& line : section.lines) {
      const std::string cut = line.cut_degrees > 0 ? ", " + number(line.cut_degrees) + "°" : std::string{};
      for (auto one = line.marks.rbegin(); one != line.marks.rend(); ++one) {
        const std::string words = words::figure(line.length, display) + " (" + markWords(*one, job) + cut + ")";
        left[std::llround(line.length * kTenths)].push_back({words, one->count});  // as cut() rounds its pieces
      }
    }
  }

  /// The words of one bar's pieces, which are then cut.
  std::string take(const CutBar& bar) {
    std::vector<std::string> pieces;
    for (const double length : bar.pieces) {
      auto& alike = left[std::llround(length * kTenths)];
      assert(!alike.empty());  // a bar holds pieces of this section alone
      pieces.push_back(alike.back().first);
      if (--alike.back().second == 0) alike.pop_back();
    }
    return summed(pieces);
  }
};

Table cuttingPlan(const Takeoff& takeoff, const job::Job& job, const practice::Practice& practice) {
  Table table{"cutting plan",
              "Cutting plan: lengths of timber",
              {lengths("timber"), count("lengths"), run("stock length"), length("offcut"), lengths("pieces")}};
  for (const auto& section : takeoff.timber) {
    ToCut to_cut(section, job, practice.display);
    for (const auto& bar : section.cutting.bars) {
      for (int n = 0; n < bar.times; ++n) {
        std::string pieces = to_cut.take(bar);
        if (n > 0 && std::get<std::string>(table.rows.back().back()) == pieces)  // cut and marked alike
          std::get<double>(table.rows.back()[1]) += 1;
        else
          table.rows.push_back(
              {sectionFigures(section, practice.display), 1.0, bar.stock, bar.offcut, std::move(pieces)});
      }
    }
  }
  if (!table.rows.empty()) {
    table.notes = {
        "Each cut takes " + words::length(takeoff.kerf, practice.display) +
        (takeoff.end_trim > 0
             ? ", and " + words::length(takeoff.end_trim, practice.display) + " of each length go to square its end."
             : std::string{"."}) +
        " Beside each piece stands its mark on the wall's elevation, and how far off square its end is cut. Plates "
        "longer than a length meet over a common stud, those above each other over different ones."};
  }
  return table;
}

Table strips(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"flashing strips", "Flashing strips to cut", {length("width"), length("length"), count("count")}};
  for (const auto& roll : takeoff.rolls) {
    for (const auto& piece : roll.pieces) table.rows.push_back({roll.width, piece.length, double(piece.count)});
    const std::string name = words::length(roll.width, practice.display);
    if (roll.made_up) table.notes.push_back(name + " wide: no roll at hand is as wide; made of two strips.");
  }
  if (takeoff.fitted_flashings > 0) {
    table.notes.push_back(words::count(takeoff.fitted_flashings, "flashing") + " come on the units and are left out.");
  }
  return table;
}

Table rolls(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"rolls",
              "Flashing rolls, and what is cut from each",
              {length("width"), count("rolls"), run("roll length"), run("left over"), lengths("pieces")}};
  for (const auto& roll : takeoff.rolls) {
    for (const auto& bar : roll.cutting.bars) {
      table.rows.push_back(
          {roll.width, double(bar.times), bar.stock, bar.offcut, lengthsOf(bar.pieces, practice.display)});
    }
    const std::string name = words::length(roll.width, practice.display) + " wide: ";
    if (roll.made_up) table.notes.push_back(name + "twice as many rolls as stand here, for two strips side by side.");
    if (!roll.cutting.proven()) table.notes.push_back(name + verdictOf(roll.cutting, practice.display));
    if (!roll.cutting.too_long.empty()) table.notes.push_back(name + "pieces longer than a roll are left out.");
  }
  return table;
}

Table foldedMetal(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{
      "folded metal",
      "Folded metal, to order",
      {length("length"), length("girth"), count("count"), degrees("fall°"), length("stop ends"), lengths("folds")}};
  const auto figure = [&](double fold) { return words::figure(std::round(fold * 10) / 10, practice.display); };
  for (const auto& metal : takeoff.folded) {
    table.rows.push_back({metal.length, metal.girth, double(metal.count), metal.fall_degrees, metal.stop_end,
                          metal.folds.empty() ? Cell{} : Cell{base::joined(metal.folds, " / ", figure)}});
  }
  return table;
}

Table sheets(const Takeoff& takeoff, const job::Job& job, const practice::Practice& practice) {
  Table table{"sheets",
              "Membrane, cladding and lining by wall",
              {text("wall"), area("frame"), area(practice.words.membrane), count(practice.words.membrane + " runs"),
               area(practice.words.cladding), area(practice.words.lining)},
              {},
              {"Membrane: openings included, and a lap at each run. Cladding: without the units. Lining: without the "
               "openings."}};
  const auto square = [](double area) { return std::round(area * 1e4) / 1e4; };  // to the square centimetre
  for (std::size_t w = 0; w < takeoff.walls.size(); ++w) {
    const auto& wall = takeoff.walls[w];
    table.rows.push_back({job.walls[w].name, square(wall.face), square(wall.membrane), double(wall.membrane_runs),
                          square(wall.cladding), square(wall.lining)});
  }
  return table;
}

Table packers(const Takeoff& takeoff, const practice::Practice& practice) {
  const std::string& packer = practice.words.packer;
  Table table{"packers",
              "Packing: " + packer + "s by thickness",
              {text("what"), length("thickness"), count("count"), count("boxes")}};
  for (const auto& one : takeoff.packers) {
    table.rows.push_back({packer, one.thickness, double(one.count), std::ceil(double(one.count) / kPackerBox)});
  }
  for (const auto& [thickness, count] : takeoff.backing)
    table.rows.push_back({"timber backing", thickness, double(count), Cell{}});
  if (!table.rows.empty()) table.notes = {"Boxes of " + std::to_string(kPackerBox) + " of a size."};
  return table;
}

Table screws(const Takeoff& takeoff) {
  Table table{"screws", "Screws by size", {text("screw"), count("count")}};
  for (const auto& [name, count] : takeoff.screws) table.rows.push_back({name, double(count)});
  if (takeoff.without_screw > 0) table.rows.push_back({"none at hand is long enough", double(takeoff.without_screw)});
  return table;
}

Table sealing(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"tapes and sealing",
              "Tapes, backing rod and sealant",
              {text("what"), length("size"), run("length"), count("count")}};
  for (const auto& [tape, length] : takeoff.tapes)
    table.rows.push_back({tape.first, tape.second, std::round(length), Cell{}});
  for (const auto& [diameter, length] : takeoff.sealing.rods) {
    const bool none = diameter <= 0;  // as Sealing::rods
    table.rows.push_back({none ? "gap wider than any backing rod" : "backing rod", none ? Cell{} : Cell{diameter},
                          std::round(length), Cell{}});
  }
  if (takeoff.sealing.sealant_ml > 0) {
    table.rows.push_back({"sealant, cartridges", Cell{}, std::round(takeoff.sealing.length),
                          std::ceil(takeoff.sealing.sealant_ml / kCartridge)});
    table.notes = {"Sealant: " + volume(takeoff.sealing.sealant_ml, practice.display) + ", in cartridges of " +
                   volume(kCartridge, practice.display) + ". Low-expansion foam may replace rod and sealant."};
  }
  for (const auto& [cavity, of] : takeoff.over_cavity) {
    if (of.closers > 0) table.rows.push_back({"cavity closer", cavity, std::round(of.closers), Cell{}});
    for (const auto& [length, count] : of.supports) {
      table.rows.push_back({"sill support, across the cavity", cavity, length, double(count)});
    }
  }
  for (const auto& [size, count] : takeoff.sub_sills) {
    table.rows.push_back({"sub-sill, " + words::length(size.height, practice.display) + " high", size.depth,
                          std::round(size.length), double(count)});
  }
  for (const double joint : takeoff.sealing.coupled) {
    table.rows.push_back({"joint of coupled parts, sealed as their maker has it", Cell{}, std::round(joint), 1.0});
  }
  return table;
}

Table tools(const Takeoff& takeoff, const job::Job& job) {
  Table table{"tools", "Tools for the crew", {text("tool"), count("units"), text("for")}};
  for (const auto& [tool, openings] : takeoff.tools) {
    const auto name = [&](std::size_t opening) { return job.openings[opening].name; };
    const bool all = openings.size() == job.openings.size();  // each is named once
    table.rows.push_back({tool, double(openings.size()), all ? "all" : base::joined(openings, ", ", name)});
  }
  return table;
}

}  // namespace

std::string headingOf(const Column& column, practice::Display display) {
  static constexpr const char* kUnits[][2] = {{"", ""},       {"", ""},          {" mm", " in"}, {" mm", " ft"},
                                              {" mm", " in"}, {" m2", " sq ft"}, {" kg", " lb"}, {"", ""}};  // as Holds
  return column.name + kUnits[static_cast<std::size_t>(column.holds)][inInches(display) ? 1 : 0];
}

double inUnit(double value, const Column& column, practice::Display display) {
  static constexpr double kSquareFoot = kFootOfMm * kFootOfMm / (kMmPerM * kMmPerM);
  static constexpr double kOne[] = {1, 1, practice::kInch, kFootOfMm, 1, kSquareFoot, practice::kPound, 1};  // as Holds
  const double one = kOne[static_cast<std::size_t>(column.holds)];
  if (one == 1 || !inInches(display)) return value;
  return std::round(value / one * 1e5) / 1e5;  // no digits of the division's own
}

std::string cellText(const Cell& cell, const Column& column, practice::Display display) {
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  const auto* number = std::get_if<double>(&cell);
  if (number == nullptr) return {};
  if (column.holds == Holds::Length && inInches(display)) return words::figure(*number, display);  // a run is in feet
  if (column.holds == Holds::Share) {
    // Next to certain is not certain.
    if (*number < 1 && *number > 0.99) return "over 99 %";
    return words::number(100 * *number, 0) + " %";
  }
  return words::number(inUnit(*number, column, display), column.decimals);
}

std::vector<std::string> listNames() {
  return {"job",          "order list", "timber",  "timber to buy", "cutting plan",      "flashing strips", "rolls",
          "folded metal", "sheets",     "packers", "screws",        "tapes and sealing", "tools",           "notes"};
}

std::vector<Table> tablesOf(const Takeoff& takeoff, const job::Job& job, const practice::Practice& practice) {
  std::vector<Table> all{timber(takeoff, job, practice),
                         timberToBuy(takeoff, practice),
                         cuttingPlan(takeoff, job, practice),
                         strips(takeoff, practice),
                         rolls(takeoff, practice),
                         foldedMetal(takeoff, practice),
                         sheets(takeoff, job, practice),
                         packers(takeoff, practice),
                         screws(takeoff),
                         sealing(takeoff, practice),
                         tools(takeoff, job)};
  std::erase_if(all, [](const Table& table) { return table.rows.empty() && table.notes.empty(); });
  return all;
}

}  // namespace sillwright::takeoff
