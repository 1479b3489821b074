#include <algorithm>
#include <array>
#include <cmath>

#include "view/panels/panels.h"
#include "view/values/words.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

const char* sentenceFor(plan::Trust trust) {
  constexpr std::array<const char*, 5> kSentences{
      "not measured: as planned", "measured, but no measurement checks another", "the measurements agree",
      "one measurement doesn't agree with the rest", "the measurements disagree, and any of them may be wrong"};
  return kSentences[static_cast<std::size_t>(trust)];
}

/// "+0.4", "−1.2", "0".
std::string signedFigure(double mm, practice::Display display) {
  const std::string size = figure(std::abs(mm), display);
  if (size == "0") return size;
  return (mm > 0.0 ? "+" : "−") + size;
}

/// One reading: its value, what the adjustment moved it by, and a mark where it is under suspicion.
void readingRow(const Panel& panel, const plan::AsBuilt& built, std::size_t index) {
  const plan::AdjustedReading& reading = built.readings[index];
  if (!reading.read) return;
  const practice::Display display = panel.document.practice->display;
  const bool suspect = (built.suspects >> index & 1U) != 0;
  std::string value = figure(reading.value, display) + "  " + signedFigure(reading.residual, display);
  if (suspect) value += built.trust == plan::Trust::Suspect ? "  suspect" : "  in dispute";

  RowNote note;
  note.title = plan::keyOf(reading.reading);
  note.body = "read to ± " + figure(reading.sigma, display) + ", moved by " + signedFigure(reading.residual, display) +
              " to agree with the rest";
  if (reading.redundancy < 0.01) {
    note.body += "; no other reading checks it";
  } else {
    note.body += "; " + words::number(reading.redundancy * 100.0, 0) + " % checked by the others, " +
                 words::number(reading.standardised, 1) + " times its standard error";
  }
  row(panel, plan::wordsFor(reading.reading), value, note);
}

double widthSpread(const job::Measured& measured) {
  double low = 1e300;
  double high = -1e300;
  for (const auto& width : measured.widths) {
    if (!width) continue;
    low = std::min(low, *width);
    high = std::max(high, *width);
  }
  return high < low ? 0.0 : high - low;
}

/// "1.2 in", "0.8 out": a bow into the opening or out of it.
std::string bowFigure(double bow, practice::Display display) {
  const std::string size = figure(std::abs(bow), display);
  if (size == "0") return size;
  return size + (bow > 0.0 ? " in" : " out");
}

/// Bows are told where a middle was read; both edges of a pair share what the middle tells.
void bowRows(const Panel& panel, const plan::AsBuilt& built) {
  const practice::Display display = panel.document.practice->display;
  RowNote note = noteOf(panel.document.practice->opening_tolerance.bow, display);
  note.title += "; in: into the opening; each edge, if both share it";
  if (built.middles[0] == plan::MiddleUse::Bow)
    row(panel, "studs bowed", bowFigure(built.shape.bow.left, display), note);
  if (built.middles[1] == plan::MiddleUse::Bow) {
    row(panel, "sill and head bowed", bowFigure(built.shape.bow.sill, display), note);
  }
}

/// The wall's depth as read, against the reveal's.
void depthRow(const Panel& panel, std::size_t opening) {
  const auto& measured = panel.document.job.openings[opening].measured;
  if (!measured || (!measured->wall_depth[0] && !measured->wall_depth[1])) return;
  const practice::Display display = panel.document.practice->display;
  std::string value;
  for (const auto& depth : measured->wall_depth) {
    if (!value.empty()) value += " · ";
    value += depth ? figure(*depth, display) : std::string("–");
  }
  row(panel, "wall depth, left · right", value, noteOf(panel.document.practice->unit.reveal_flush_tolerance, display));
}

/// The shape that follows from the readings, each row against its limit.
void shapeRows(const Panel& panel, std::size_t opening) {
  const plan::AsBuilt& built = panel.document.plan.openings[opening].as_built;
  const practice::OpeningTolerance& limits = panel.document.practice->opening_tolerance;
  const practice::Display display = panel.document.practice->display;
  const auto& corner = built.shape.corner;
  row(panel, "out of square", figure(std::abs(built.out_of_square), display), noteOf(limits.diagonals, display));
  row(panel, "sill out of level", figure(std::abs(corner[1].z), display), noteOf(limits.sill_level, display));
  RowNote plumb = noteOf(limits.plumb_mm, display);
  if (limits.plumb_mm && limits.plumb_over) {
    plumb.title += " in " + words::length(limits.plumb_over->value, display);
  }
  row(panel, "left stud out of plumb", figure(std::abs(corner[3].x), display), plumb);
  row(panel, "right stud out of plumb", figure(std::abs(corner[2].x - corner[1].x), display), plumb);
  bowRows(panel, built);
  if (built.twist) row(panel, "twist", figure(std::abs(*built.twist), display), noteOf(limits.twist, display));
  const std::optional<job::Measured>& measured = panel.document.job.openings[opening].measured;
  if (measured && widthSpread(*measured) > 0.0) {
    row(panel, "widths differ by", figure(widthSpread(*measured), display), noteOf(limits.width_spread, display));
  }
  depthRow(panel, opening);
}

}  // namespace

void asMeasured(const Panel& panel, std::size_t opening) {
  const plan::AsBuilt& built = panel.document.plan.openings[opening].as_built;
  groupHeading(panel, "As measured");
  text(panel.fonts.body, panel.colours->ink, sentenceFor(built.trust));
  if (built.trust == plan::Trust::Planned) return;
  if (built.settle_by) {
    const bool taken = plan::wasRead(built, *built.settle_by);
    const std::string words =
        std::string("measure the ") + plan::wordsFor(*built.settle_by) + (taken ? " again" : " too") + " to settle it";
    text(panel.fonts.body, panel.colours->ink, words);
  }
  if (built.turned_free) {
    text(panel.fonts.small, panel.colours->quiet, "neither level nor plumb measured: the sill is taken as level");
  }
  text(panel.fonts.small, panel.colours->quiet, "each as measured, then how far off the others say it is");
  for (std::size_t i = 0; i < plan::kReadings; ++i) readingRow(panel, built, i);
  room(panel, 4.0F);
  shapeRows(panel, opening);
}

}  // namespace sillwright::view
