// The take-off's lists, column by column.

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <utility>

#include "plan/frame/part_names.h"
#include "takeoff/table.h"
#include "words/length.h"
#include "words/text.h"

namespace sillwright::takeoff {
namespace {

using words::number;

Cell text(std::string value) {
  return value.empty() ? Cell{} : Cell{std::move(value)};
}

std::string lengthsOf(const std::vector<double>& pieces, practice::Display display) {
  std::string all;
  for (std::size_t i = 0; i < pieces.size();) {
    std::size_t same = i;
    while (same < pieces.size() && pieces[same] == pieces[i]) ++same;
    if (!all.empty()) all += " + ";
    if (same - i > 1) all += std::to_string(same - i) + " × ";
    all += words::bareLength(pieces[i], display);
    i = same;
  }
  return all;
}

/// "44.4 m bought, 43.9 m used; proven: no plan buys less" or how far from proven it is.
std::string verdictOf(const CutPlan& plan) {
  std::string said = number(plan.bought / 1000, 1) + " m bought for " + number(plan.used / 1000, 1) + " m of pieces; ";
  if (plan.proven()) return said + "no plan buys less.";
  return said + "at most " + number((plan.bought - plan.bound) / 1000, 1) + " m could still be saved.";
}

std::string sectionName(const TimberSection& section, practice::Display display) {
  std::string name = words::length(section.depth, display) + " × " + words::length(section.thickness, display);
  if (!section.grade.empty()) name += " " + section.grade;
  return name;
}

Table timber(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"timber",
              "Timber by section and length",
              {{"depth", Holds::Length, 1},
               {"thickness", Holds::Length, 1},
               {"grade"},
               {"part"},
               {"length", Holds::Length, 1},
               {"count", Holds::Number}},
              {},
              {}};
  for (const auto& section : takeoff.timber) {
    for (const auto& line : section.lines) {
      table.rows.push_back({section.depth, section.thickness, text(section.grade),
                            plan::nameOf(line.part, practice.words), line.length, double(line.count)});
    }
  }
  if (!table.rows.empty()) table.notes = {"Raked pieces: length to the long point."};
  return table;
}

Table timberToBuy(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"timber to buy",
              "Timber to buy",
              {{"depth", Holds::Length, 1},
               {"thickness", Holds::Length, 1},
               {"grade"},
               {"stock length", Holds::Length, 1},
               {"count", Holds::Number}},
              {},
              {}};
  for (const auto& section : takeoff.timber) {
    std::map<double, int> count;
    for (const auto& bar : section.cutting.bars) count[bar.stock] += bar.times;
    for (const auto& [stock, times] : count) {
      table.rows.push_back({section.depth, section.thickness, text(section.grade), stock, double(times)});
    }
    const std::string name = sectionName(section, practice.display);
    if (!section.cutting.bars.empty()) table.notes.push_back(name + ": " + verdictOf(section.cutting));
    for (const auto& piece : section.cutting.too_long) {
      table.notes.push_back(name + ": " + std::to_string(piece.count) + " of " +
                            words::length(piece.length, practice.display) +
                            " are longer than any stock length, and left out.");
    }
  }
  return table;
}

/// Whether some plate is longer than any stock, and is cut into pieces.
bool anyPlateJointed(const Takeoff& takeoff) {
  const auto countOf = [](const auto& some) {
    return std::accumulate(some.begin(), some.end(), 0, [](int sum, const auto& one) { return sum + one.count; });
  };
  return std::any_of(takeoff.timber.begin(), takeoff.timber.end(),
                     [&](const auto& section) { return countOf(section.pieces) > countOf(section.lines); });
}

Table cuttingPlan(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"cutting plan",
              "Cutting plan: lengths of timber",
              {{"depth", Holds::Length, 1},
               {"thickness", Holds::Length, 1},
               {"grade"},
               {"lengths", Holds::Number},
               {"stock length", Holds::Length, 1},
               {"offcut", Holds::Length, 1},
               {"pieces"}},
              {},
              {}};
  for (const auto& section : takeoff.timber) {
    for (const auto& bar : section.cutting.bars) {
      table.rows.push_back({section.depth, section.thickness, text(section.grade), double(bar.times), bar.stock,
                            bar.offcut, lengthsOf(bar.pieces, practice.display)});
    }
  }
  if (!table.rows.empty()) {
    table.notes = {"Each cut takes " + words::length(takeoff.kerf, practice.display) + "."};
    if (anyPlateJointed(takeoff)) {
      table.notes[0] +=
          " Plates longer than any stock meet over a common stud, those above each other over different ones.";
    }
  }
  return table;
}

Table strips(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"flashing strips",
              "Flashing strips to cut",
              {{"width", Holds::Length, 1}, {"length", Holds::Length, 1}, {"count", Holds::Number}},
              {},
              {}};
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
              {{"width", Holds::Length, 1},
               {"rolls", Holds::Number},
               {"roll length", Holds::Length},
               {"left over", Holds::Length},
               {"pieces"}},
              {},
              {}};
  for (const auto& roll : takeoff.rolls) {
    for (const auto& bar : roll.cutting.bars) {
      table.rows.push_back(
          {roll.width, double(bar.times), bar.stock, bar.offcut, lengthsOf(bar.pieces, practice.display)});
    }
    const std::string name = words::length(roll.width, practice.display) + " wide: ";
    if (roll.made_up) table.notes.push_back(name + "twice as many rolls as stand here, for two strips side by side.");
    if (!roll.cutting.proven()) table.notes.push_back(name + verdictOf(roll.cutting));
    if (!roll.cutting.too_long.empty()) table.notes.push_back(name + "pieces longer than a roll are left out.");
  }
  return table;
}

Table foldedMetal(const Takeoff& takeoff, const practice::Practice& practice) {
  Table table{"folded metal",
              "Folded metal, to order",
              {{"length", Holds::Length, 1},
               {"girth", Holds::Length, 1},
               {"count", Holds::Number},
               {"fall degrees", Holds::Number, 1},
               {"stop ends", Holds::Length, 1},
               {"folds"}},
              {},
              {}};
  for (const auto& metal : takeoff.folded) {
    std::string folds;
    for (const double fold : metal.folds) {
      folds += (folds.empty() ? "" : " / ") + lengthsOf({std::round(fold * 10) / 10}, practice.display);
    }
    table.rows.push_back(
        {metal.length, metal.girth, double(metal.count), metal.fall_degrees, metal.stop_end, text(folds)});
  }
  return table;
}

Table sheets(const Takeoff& takeoff, const job::Job& job, const practice::Practice& practice) {
  Table table{"sheets",
              "Membrane, cladding and lining by wall",
              {{"wall"},
               {"frame m2", Holds::Number, 2},
               {practice.words.membrane + " m2", Holds::Number, 2},
               {practice.words.membrane + " runs", Holds::Number},
               {practice.words.cladding + " m2", Holds::Number, 2},
               {practice.words.lining + " m2", Holds::Number, 2}},
              {},
              {"Membrane: openings included, and a lap at each run. Cladding: without the units. Lining: without the "
               "openings."}};
  const auto square = [](double area) { return std::round(area * 1e4) / 1e4; };
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
              {{"what"}, {"thickness", Holds::Length, 1}, {"count", Holds::Number}, {"boxes", Holds::Number}},
              {},
              {}};
  for (const auto& one : takeoff.packers) {
    table.rows.push_back({packer, one.thickness, double(one.count), std::ceil(double(one.count) / kPackerBox)});
  }
  for (const auto& one : takeoff.backing) {
    table.rows.push_back({"timber backing", one.thickness, double(one.count), std::monostate{}});
  }
  if (!table.rows.empty()) table.notes = {"Boxes of " + std::to_string(kPackerBox) + " of a size."};
  return table;
}

Table screws(const Takeoff& takeoff) {
  Table table{"screws", "Screws by size", {{"screw"}, {"count", Holds::Number}}, {}, {}};
  for (const auto& screw : takeoff.screws) table.rows.push_back({screw.name, double(screw.count)});
  if (takeoff.without_screw > 0) {
    table.rows.push_back({"none at hand is long enough", double(takeoff.without_screw)});
  }
  return table;
}

Table sealing(const Takeoff& takeoff) {
  Table table{"tapes and sealing",
              "Tapes, backing rod and sealant",
              {{"what"}, {"size", Holds::Length, 1}, {"length", Holds::Length}, {"count", Holds::Number}},
              {},
              {}};
  for (const auto& tape : takeoff.tapes) {
    table.rows.push_back({tape.name, tape.width, std::round(tape.length), std::monostate{}});
  }
  for (const auto& rod : takeoff.sealing.rods) {
    const bool none = rod.diameter <= 0;
    table.rows.push_back({none ? "gap wider than any backing rod" : "backing rod", none ? Cell{} : Cell{rod.diameter},
                          std::round(rod.length), std::monostate{}});
  }
  if (takeoff.sealing.sealant_ml > 0) {
    table.rows.push_back({"sealant, cartridges", std::monostate{}, std::round(takeoff.sealing.length),
                          std::ceil(takeoff.sealing.sealant_ml / kCartridge)});
    table.notes = {"Sealant: " + number(takeoff.sealing.sealant_ml / 1000, 2) + " litres, in cartridges of " +
                   number(kCartridge, 0) + " ml. Low-expansion foam may replace rod and sealant."};
  }
  return table;
}

Table tools(const Takeoff& takeoff) {
  Table table{"tools", "Tools for the crew", {{"tool"}, {"openings", Holds::Number}}, {}, {}};
  for (const auto& tool : takeoff.tools) table.rows.push_back({tool.name, double(tool.count)});
  return table;
}

}  // namespace

std::vector<Table> tablesOf(const Takeoff& takeoff, const job::Job& job, const practice::Practice& practice) {
  std::vector<Table> all{timber(takeoff, practice),
                         timberToBuy(takeoff, practice),
                         cuttingPlan(takeoff, practice),
                         strips(takeoff, practice),
                         rolls(takeoff, practice),
                         foldedMetal(takeoff, practice),
                         sheets(takeoff, job, practice),
                         packers(takeoff, practice),
                         screws(takeoff),
                         sealing(takeoff),
                         tools(takeoff)};
  std::erase_if(all, [](const Table& table) { return table.rows.empty() && table.notes.empty(); });
  return all;
}

}  // namespace sillwright::takeoff
