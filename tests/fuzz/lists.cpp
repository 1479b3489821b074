#include "fuzz/lists.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "exchange/csv.h"
#include "fuzz/hold.h"
#include "support/schedules.h"
#include "takeoff/order.h"
#include "takeoff/table.h"
#include "takeoff/takeoff.h"

namespace sillwright::fuzz {
namespace {

constexpr double kRounding = 1e-6;  // mm, of sums that are made in another order
constexpr double kTenth = 0.05;     // what a length that is given to the nearest tenth may be off, and a little more

constexpr double kSawn = 1.6;  // and one that is sawn to the millimetre or the sixteenth of an inch, down at most

/// A number of things and what they measure together: what is listed must be what is planned.
struct Tally {
  int count = 0;
  double length = 0;

  void add(double each, int times = 1) {
    count += times;
    length += each * times;
  }
};

/// `each`: what one of them may be off.
void holdAlike(const Tally& listed, const Tally& planned, std::string_view promise, double each = kTenth) {
  hold(listed.count == planned.count, promise);
  hold(std::abs(listed.length - planned.length) <= each * planned.count + kRounding, promise);
}

void holdCutting(const takeoff::CutPlan& cutting, const std::vector<takeoff::CutPiece>& pieces, double kerf,
                 double trim) {
  double wanted = 0;
  for (const takeoff::CutPiece& piece : pieces) wanted += piece.length * piece.count;
  double given = 0;
  for (const takeoff::CutPiece& piece : cutting.too_long) given += piece.length * piece.count;
  double bought = 0;
  for (const takeoff::CutBar& bar : cutting.bars) {
    double used = 0;
    for (const double piece : bar.pieces) used += piece;
    given += used * bar.times;
    bought += bar.stock * bar.times;
    hold(used + kerf * static_cast<double>(bar.pieces.size() - 1) <= bar.stock - trim + 0.01, "a bar holds its pieces");
  }
  hold(std::abs(wanted - given) < 0.1 * static_cast<double>(pieces.size() + 1), "every piece is cut once");
  hold(std::abs(bought - cutting.bought) < kTenth, "what is bought is the bars");
  hold(cutting.bound <= cutting.bought + kRounding, "no plan buys less than the bound");
}

/// Each piece of timber of the frames once, each ply of a lintel one; of a second row as far as there is room. What
/// stands in an old wall isn't bought.
void holdTimber(const takeoff::Takeoff& takeoff, const job::Job& job, const plan::Plan& plan) {
  Tally planned;
  for (const plan::WallPlan& wall : plan.walls) {
    if (plan::isFinished(job, wall)) continue;
    const auto& second = wall.spec.second_row;
    for (const plan::Member& member : wall.frame.members) {
      planned.add(member.length, 1);
      const bool lintel = member.part == plan::MemberPart::Lintel;
      if (second && (!lintel || member.y1 <= second->depth)) planned.add(member.length, 1);
    }
  }
  Tally listed;
  Tally cut;
  double sections = 0;
  for (const takeoff::TimberSection& section : takeoff.timber) {
    for (const takeoff::TimberLine& line : section.lines) listed.add(line.length, line.count);
    for (const takeoff::CutPiece& piece : section.pieces) cut.add(piece.length, piece.count);
    sections += section.length;
    holdCutting(section.cutting, section.pieces, takeoff.kerf, takeoff.end_trim);
  }
  holdAlike(listed, planned, "all timber is listed, and nothing twice", kSawn);
  hold(std::abs(sections - listed.length) < kTenth, "a section is as long as its lines");
  hold(cut.count == listed.count, "no piece is left uncut");
  hold(std::abs(cut.length - listed.length) <= kTenth * cut.count + kRounding, "what is cut is what is listed");
}

/// Flashings, metal and tapes: each piece of the plan in the one list that it belongs to.
void holdSheets(const takeoff::Takeoff& takeoff, const plan::Plan& plan) {
  int fitted = 0;
  Tally strips, metal, tapes;
  for (const plan::OpeningPlan& opening : plan.openings) {
    for (const plan::Piece& piece : opening.weather.pieces) {
      switch (piece.kind) {
        case plan::PieceKind::HeadFlashing:
        case plan::PieceKind::SillFlashing:
        case plan::PieceKind::SillPan:
        case plan::PieceKind::JambFlashing:
          if (piece.fitted) {
            ++fitted;
          } else {
            (piece.kind == plan::PieceKind::HeadFlashing ? metal : strips).add(piece.length);
          }
          break;
        case plan::PieceKind::CornerTape:
        case plan::PieceKind::HeadTape:
          tapes.add(piece.length);
          break;
        default:
          break;
      }
    }
  }
  Tally listed;
  for (const takeoff::RollUse& roll : takeoff.rolls) {
    for (const takeoff::CutPiece& piece : roll.pieces) listed.add(piece.length, piece.count);
    holdCutting(roll.cutting, roll.pieces, 0, 0);
  }
  holdAlike(listed, strips, "all strips are listed, and nothing twice");
  Tally folded;
  for (const takeoff::FoldedMetal& each : takeoff.folded) folded.add(each.length, each.count);
  holdAlike(folded, metal, "all folded metal is listed, and nothing twice");
  for (const plan::OpeningPlan& opening : plan.openings) {
    for (const plan::Piece& piece : opening.weather.pieces) {
      if (piece.kind != plan::PieceKind::HeadFlashing || piece.fitted) continue;
      hold(std::ranges::any_of(takeoff.folded,
                               [&](const takeoff::FoldedMetal& each) {
                                 return std::abs(each.girth - piece.width) <= kTenth + kRounding &&
                                        std::abs(each.length - piece.length) <= kTenth + kRounding &&
                                        each.stop_end == piece.stop_end && each.folds == piece.folds &&
                                        each.fall_degrees == piece.fall_degrees;
                               }),
           "metal is folded as its flashing is planned");
    }
  }
  double rolled = 0;
  for (const auto& [tape, length] : takeoff.tapes) rolled += length;
  hold(std::abs(rolled - tapes.length) <= kRounding * (tapes.count + 1), "tapes are as long as they are planned");
  hold(takeoff.fitted_flashings == fitted, "what came on the units isn't bought");
}

void holdHardware(const takeoff::Takeoff& takeoff, const plan::Plan& plan) {
  Tally packers;
  Tally backing;
  std::size_t screws = 0;
  for (const plan::OpeningPlan& opening : plan.openings) {
    screws += opening.fixings.points.size();
    for (const plan::PackingPoint& point : opening.packing.points) {
      packers.count += point.stack.pieces;
      packers.length += point.stack.total;
      if (point.backing > 0) backing.add(point.backing);
    }
  }
  Tally listed;
  for (const plan::PackerCount& each : takeoff.packers) listed.add(each.thickness, each.count);
  holdAlike(listed, packers, "all packers are listed, and nothing twice");
  Tally behind;
  for (const auto& [thickness, count] : takeoff.backing) behind.add(thickness, count);
  holdAlike(behind, backing, "all backing is listed, and nothing twice");
  int named = takeoff.without_screw;
  for (const auto& [name, count] : takeoff.screws) named += count;
  hold(static_cast<std::size_t>(named) == screws, "each fixing has its screw in the list, or is counted without");
  for (const auto& [tool, openings] : takeoff.tools) {
    hold(!openings.empty() && openings.back() < plan.openings.size(), "a tool is for some opening");
  }
}

void holdTable(const takeoff::Table& table) {
  const auto read = exchange::readCsv(exchange::csv(table, practice::Display::Millimetres), "list.csv");
  holdAnswer(read);
  hold(read.ok() && read.value->size() <= table.rows.size() + 1, "a list that is written is a CSV");
  for (const auto& row : table.rows) {
    hold(row.size() == table.columns.size(), "a row is as long as the columns");
    for (const takeoff::Cell& cell : row) {
      const auto* number = std::get_if<double>(&cell);
      hold(number == nullptr || std::isfinite(*number), "a list's numbers are finite");
    }
  }
}

/// The order list is a schedule that brings back what the job says of each opening.
void holdOrder(const job::Job& job, const takeoff::Table& order) {
  const auto again = testing::readSchedule(exchange::csv(order, practice::Display::Millimetres), "order.csv", {});
  holdAnswer(again);
  hold(again.ok() == !job.openings.empty(), "an order list with openings is a schedule");
  if (!again.ok()) return;
  hold(again.value->openings.size() == job.openings.size(), "a schedule brings all openings back");
  // A schedule is read to a ten-thousandth of a millimetre, so that inches come out whole.
  const auto alike = [](double a, double b) { return std::abs(a - b) <= 1e-4; };
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Opening& was = job.openings[i];
    const job::Opening& is = again.value->openings[i];
    hold(is.name == was.name && again.value->walls[is.wall] == job.walls[was.wall].name, "in their order and walls");
    hold(alike(is.left, was.left) && alike(is.sill, was.sill) && alike(is.width, was.width) &&
             alike(is.height, was.height) && is.unit.kind == was.unit.kind && alike(is.unit.width, was.unit.width) &&
             alike(is.unit.height, was.unit.height),
         "with the job's own sizes");
  }
}

}  // namespace

void holdLists(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
               const check::Findings& findings) {
  takeoff::TakeoffOptions options;
  options.steps = 10'000;
  const takeoff::Takeoff takeoff = takeoff::takeOff(job, practice, plan, options);
  holdTimber(takeoff, job, plan);
  holdSheets(takeoff, plan);
  holdHardware(takeoff, plan);
  for (const takeoff::Table& table : takeoff::tablesOf(takeoff, job, practice)) holdTable(table);
  const takeoff::Table order = takeoff::orderList(job, practice, plan, findings);
  holdTable(order);
  holdOrder(job, order);
}

}  // namespace sillwright::fuzz
