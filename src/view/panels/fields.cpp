#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "base/words.h"
#include "plan/survey/asked_readings.h"
#include "view/panels/panels.h"
#include "view/values/readings.h"
#include "words/text.h"

namespace sillwright::view {

namespace {

/// A field at the cursor, with what is being typed into it, else `value`, at its right edge. `strong`: the value is a
/// person's own, not the file's.
Response fieldItem(const Page& page, std::string_view name, ImVec2 size, const std::string& value, const FieldOf& what,
                   bool strong = false, bool quiet = false) {
  const Response at = item(page, name, size);
  Item& own = page.focus->now.back();  // item() has just put it there
  own.field = what;
  if (at.pressed) page.focus->at = own.id;  // a click does what Tab does
  const bool focused = page.focus->at == own.id;
  const bool typing = page.typing.field && page.typing.field->what == what;
  const std::string& words = typing ? page.typing.field->text : value;
  const Palette& colours = *page.colours;
  ImDrawList& list = *ImGui::GetWindowDrawList();
  list.AddRectFilled(at.low, at.high, toU32(focused ? colours.paper : colours.hovered), page.px(2.0F));
  list.AddRect(at.low, at.high, toU32(focused ? colours.ink : colours.quiet), page.px(2.0F), 0,
               focused ? std::max(1.5F, page.px(1.6F)) : 1.0F);
  ImFont* font = strong || typing ? page.fonts.strong : page.fonts.body;
  const float right = at.high.x - page.px(6.0F);
  const float top = at.low.y + (at.high.y - at.low.y - font->FontSize) * 0.5F;
  list.PushClipRect(at.low, at.high, true);  // a long text loses its beginning: it ends where it is typed
  drawText(list, font, {right - textSize(font, words).x, top}, quiet && !typing ? colours.quiet : colours.ink, words);
  list.PopClipRect();
  if (!typing && !(focused && words.empty())) return at;  // a value that isn't being typed over has no stroke
  const float x = right + page.px(1.5F);                  // where the next character comes
  list.AddLine({x, at.low.y + page.px(3.0F)}, {x, at.high.y - page.px(3.0F)}, toU32(colours.ink),
               std::max(1.0F, page.px(1.2F)));
  return at;
}

constexpr std::size_t kMostAcross = 3;  // readings in a row

void explain(const Panel& panel, std::size_t opening, TapeReading reading, const Response& response) {
  Card card{response.low, response.high, infoOf(reading).name, infoOf(reading).how, {}};
  if (panel.typing.isTyped(panel.document.job, opening, reading)) {
    const job::Opening* in_file = panel.typing.inFile(panel.document.job, opening);
    const auto value = in_file != nullptr ? valueOf(in_file->measured, reading) : std::nullopt;
    card.body += ". Typed, not in the file: ";
    card.body += value ? "the file has " + figure(*value, panel.display) : "the file has none";
  }
  card.source = boundsWords(boundsOf(reading), panel.display) + "; empty where it wasn't read";
  panel.cards.push_back(card);
}

void drawField(const Panel& panel, std::size_t opening, TapeReading reading, ImVec2 size) {
  const auto value = valueOf(panel.document.job.openings[opening].measured, reading);
  const std::string words = value ? figure(*value, panel.display) : std::string{};
  const bool typed = panel.typing.isTyped(panel.document.job, opening, reading);
  const Response response =
      fieldItem(panel, std::string("read ") + infoOf(reading).name, size, words, ReadingOf{opening, reading}, typed);
  if (response.hovered) explain(panel, opening, reading, response);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  if (typed) {  // a pen's stroke down the left edge: typed, not in the file
    const float x = response.low.x + panel.px(3.5F);
    list.AddLine({x, response.low.y + panel.px(4.0F)}, {x, response.high.y - panel.px(4.0F)}, toU32(panel.colours->ink),
                 std::max(2.0F, panel.px(2.5F)));
  }
  if (plan::isSuspect(panel.document.plan.openings[opening].as_built, reading)) {
    const float radius = panel.px(4.5F);  // as drawMark draws the ring of what isn't measured
    list.AddCircle({response.low.x + panel.px(13.0F), (response.low.y + response.high.y) * 0.5F}, radius * 0.85F,
                   toU32(kPlannedRing), 24, radius * 0.42F);
  }
}

/// One row of fields: the readings from `first` on that share a group. Answers the first of the next row.
std::size_t drawRow(const Panel& panel, std::size_t opening, std::size_t first) {
  const auto& head = infoOf(static_cast<TapeReading>(first));
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float label = textSize(panel.fonts.body, "wall depth").x + panel.px(12.0F);  // the longest of the rows' words
  const float across = (ImGui::GetContentRegionAvail().x - label) / static_cast<float>(kMostAcross);
  const ImVec2 field{std::floor(across - panel.px(9.0F)), panel.fonts.body->FontSize + panel.px(6.0F)};
  const float top = at.y + (head.caption[0] != '\0' ? panel.fonts.small->FontSize + panel.px(1.0F) : 0.0F);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, panel.fonts.body, {at.x, top + panel.px(3.0F)}, panel.colours->quiet, head.group);
  std::size_t next = first;
  for (; next < job::kTapeReadings; ++next) {
    const auto reading = static_cast<TapeReading>(next);
    if (std::string_view(infoOf(reading).group) != head.group) break;  // readings of a group follow one another
    const float x = at.x + label + static_cast<float>(next - first) * (field.x + panel.px(9.0F));
    drawText(list, panel.fonts.small, {x, at.y}, panel.colours->quiet, infoOf(reading).caption);
    ImGui::SetCursorScreenPos({x, top});
    drawField(panel, opening, reading, field);
  }
  ImGui::SetCursorScreenPos({at.x, top + field.y + panel.px(3.0F)});
  return next;
}

/// "+0.4", "−1.2", "0".
std::string signedFigure(double mm, practice::Display display) {
  const std::string size = figure(std::abs(mm), display);
  return size == "0" ? size : (mm > 0.0 ? "+" : "−") + size;  // what is rounded to nothing has no sign
}

/// One reading: its value, what the adjustment moved it by, and a mark where it is under suspicion.
void readingRow(const Panel& panel, const plan::AsBuilt& built, std::size_t index) {
  const plan::AdjustedReading& reading = built.readings[index];
  if (!reading.read) return;
  const bool suspect = (built.suspects >> index & 1U) != 0;
  std::string value = figure(reading.value, panel.display) + "  " + signedFigure(reading.residual, panel.display);
  if (suspect) value += built.trust == plan::Trust::Suspect ? "  suspect" : "  in dispute";

  RowNote note{plan::keyOf(reading.reading), "read to ± " + figure(reading.sigma, panel.display) + ", moved by " +
                                                 signedFigure(reading.residual, panel.display) +
                                                 " to agree with the rest"};
  if (reading.redundancy < 0.01) {  // below it, 0 or 1 % would be told as a check
    note.body += "; no other reading checks it";
  } else {
    note.body += "; " + words::number(reading.redundancy * 100.0, 0) + " % checked by the others, " +
                 words::number(reading.standardised, 1) + " times its standard error";
  }
  row(panel, plan::wordsFor(reading.reading), value, note);
}

/// "1.2 in", "0.8 out": a bow into the opening or out of it.
std::string bowFigure(double bow, practice::Display display) {
  const std::string size = figure(std::abs(bow), display);
  return size == "0" ? size : size + (bow > 0.0 ? " in" : " out");
}

/// Bows are told where a middle was read; both edges of a pair share what the middle tells.
void bowRows(const Panel& panel, const plan::AsBuilt& built) {
  RowNote note = noteOf(panel.document.practice->opening_tolerance.bow, panel.display);
  note.title += "; in: into the opening; each edge, if both share it";
  if (built.middles[0] == plan::MiddleUse::Bow)
    row(panel, "studs bowed", bowFigure(built.shape.bow.left, panel.display), note);
  if (built.middles[1] == plan::MiddleUse::Bow)
    row(panel, "sill and head bowed", bowFigure(built.shape.bow.sill, panel.display), note);
}

/// The wall's depth as read, against the reveal's.
void depthRow(const Panel& panel, std::size_t opening) {
  const auto& measured = panel.document.job.openings[opening].measured;
  if (!measured || (!measured->wall_depth[0] && !measured->wall_depth[1])) return;
  const std::string value = base::joined(measured->wall_depth, " · ", [&](const auto& depth) {
    return depth ? figure(*depth, panel.display) : std::string("–");
  });
  row(panel, "wall depth, left · right", value,
      noteOf(panel.document.practice->unit.reveal_flush_tolerance, panel.display));
}

/// The shape that follows from the readings, each row against its limit.
void shapeRows(const Panel& panel, std::size_t opening) {
  const plan::AsBuilt& built = panel.document.plan.openings[opening].as_built;
  const practice::OpeningTolerance& limits = panel.document.practice->opening_tolerance;
  const practice::Display display = panel.display;
  const auto& corner = built.shape.corner;
  row(panel, "out of square", figure(std::abs(built.out_of_square), display), noteOf(limits.diagonals, display));
  row(panel, "sill out of level", figure(std::abs(corner[1].z), display), noteOf(limits.sill_level, display));
  RowNote plumb = noteOf(limits.plumb_mm, display);
  if (limits.plumb_mm && limits.plumb_over) plumb.title += " in " + words::length(limits.plumb_over->value, display);
  row(panel, "left stud out of plumb", figure(std::abs(corner[3].x), display), plumb);
  row(panel, "right stud out of plumb", figure(std::abs(corner[2].x - corner[1].x), display), plumb);
  bowRows(panel, built);
  if (built.twist) row(panel, "twist", figure(std::abs(*built.twist), display), noteOf(limits.twist, display));
  const std::optional<job::Measured>& measured = panel.document.job.openings[opening].measured;
  const double spread = measured ? job::spreadOf(measured->widths).value_or(0) : 0;
  if (spread > 0.0) row(panel, "widths differ by", figure(spread, display), noteOf(limits.width_spread, display));
  depthRow(panel, opening);
}

}  // namespace

Response typedRow(const Page& page, std::string_view label, const std::string& value, const FieldOf& what, bool quiet) {
  const float width = ImGui::GetContentRegionAvail().x;
  const bool name = std::holds_alternative<job::KeyPlace>(what);
  const bool path = std::holds_alternative<PathUse>(what);
  const float wanted = path ? width : page.px(name ? 170.0F : 104.0F);  // paths are longer than keys' words
  const float field_width = std::round(std::min(wanted, width * (path ? 0.78F : 0.55F)));  // a label keeps its part
  const float height = page.fonts.body->FontSize + page.px(6.0F);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float wrap = width - field_width - page.px(8.0F);
  const float label_height = textSize(page.fonts.body, label, wrap).y;
  const float row_height = std::max(height, label_height);
  drawText(*ImGui::GetWindowDrawList(), page.fonts.body, {at.x, at.y + (row_height - label_height) * 0.5F},
           page.colours->quiet, label, wrap);
  ImGui::SetCursorScreenPos({at.x + width - field_width, at.y + (row_height - height) * 0.5F});
  const Response field = fieldItem(page, "set " + std::string(label), {field_width, height}, value, what, false, quiet);
  ImGui::SetCursorScreenPos({at.x, at.y + row_height + page.px(3.0F)});
  return field;
}

void dimensionRow(const Panel& panel, std::string_view label, const Dimension& dimension) {
  const job::Job& job = panel.document.job;
  const Response field = typedRow(panel, label, figure(valueOf(job, dimension), panel.display), dimension);
  if (ImGui::IsItemHovered()) {
    panel.cards.push_back({field.low, field.high, nameOf(job, dimension),
                           std::string("type it ") + howToType(panel.display) + "; Enter takes it",
                           boundsWords(boundsOf(job, dimension), panel.display)});
  }
}

RowNote noteOf(const practice::Rule& rule, practice::Display display) {
  if (!rule) return {"no limit", "the rule set has no value", ""};
  return {"limit " + withMinus(words::amount(rule->value, rule->unit, 3, display)), rule->note, practice::cite(*rule)};
}

void row(const Panel& panel, std::string_view label, std::string_view value, const std::optional<RowNote>& note) {
  const float width = ImGui::GetContentRegionAvail().x;
  const ImVec2 label_size = textSize(panel.fonts.body, label);
  ImVec2 value_size = textSize(panel.fonts.body, value);
  const bool beside = label_size.x + panel.px(14.0F) + value_size.x <= width;  // on one line, if both fit
  const float indent = beside ? 0.0F : panel.px(12.0F);
  if (!beside) value_size = textSize(panel.fonts.body, value, width - indent);
  const ImVec2 size{width, beside ? std::max(label_size.y, value_size.y) : label_size.y + value_size.y};

  ImVec2 at = ImGui::GetCursorScreenPos();
  if (note) {
    const Response response = item(panel, label, size);
    at = response.low;
    if (response.hovered) panel.cards.push_back({response.low, response.high, note->title, note->body, note->source});
  } else {
    ImGui::Dummy(size);
  }
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, panel.fonts.body, at, panel.colours->quiet, label);
  const ImVec2 value_at =
      beside ? ImVec2{at.x + width - value_size.x, at.y} : ImVec2{at.x + indent, at.y + label_size.y};
  drawText(list, panel.fonts.body, value_at, panel.colours->ink, value, beside ? 0.0F : width - indent);
  if (note) {  // a dotted line under the value: there is more to read
    const float y = value_at.y + value_size.y - 1.0F;
    for (float x = value_at.x; x < value_at.x + value_size.x; x += panel.px(4.0F)) {
      list.AddLine({x, y}, {x + panel.px(1.5F), y}, toU32(panel.colours->quiet));
    }
  }
}

// The sheet's group of readings: a field for each, in the order in which a person reads them off a tape.

void readFields(const Panel& panel, std::size_t opening) {
  groupHeading(panel, "Measurements");
  saySmall(panel,
           std::string("type ") + howToType(panel.display) + "; Enter or Tab goes on, Delete empties, Escape leaves");
  for (std::size_t next = 0; next < job::kTapeReadings;) next = drawRow(panel, opening, next);
  keyRows(panel, job::TableKind::Measured, opening, {"by"});
}

void lastEdit(const Panel& panel) {
  if (!panel.history.canUndo()) return;
  panel.offer("undo", "Ctrl Z", TakeBack{});
  saySmall(panel, "the last: " + panel.history.name(panel.history.place() - 1));
}

void deviationSlider(const Panel& panel) {
  const double times = panel.document.deviation;
  const std::string value = "×" + words::number(times, 1);
  panel.offer("deviation drawn", "M", Magnify{0.0});
  if (ImGui::IsItemHovered()) {
    panel.cards.push_back({ImGui::GetItemRectMin(), ImGui::GetItemRectMax(), "deviation drawn " + value,
                           "out-of-square, gaps and packers are drawn so many times as large as they are, and the unit "
                           "smaller to make room; every figure stays true"});
  }
  ImGui::SameLine(0.0F, panel.px(16.0F));
  const float bar = ImGui::GetContentRegionAvail().x - textSize(panel.fonts.body, "×20").x - panel.px(16.0F);
  const auto share = slider(panel, "deviation", bar, static_cast<float>((times - 1.0) / 19.0));  // from 1 to 20
  const double wanted = share ? 1.0 + std::round(static_cast<double>(*share) * 19.0) : times;    // whole ones by hand
  if (wanted != times) panel.wishes.push_back(Magnify{wanted});
  ImGui::SameLine(0.0F, panel.px(10.0F));
  say(panel, value);
}

void asMeasured(const Panel& panel, std::size_t opening) {
  const plan::AsBuilt& built = panel.document.plan.openings[opening].as_built;
  groupHeading(panel, "As measured");
  constexpr std::array<const char*, 5> kTrust{"not measured: as planned", "measured, but no measurement checks another",
                                              "the measurements agree", "one measurement doesn't agree with the rest",
                                              "the measurements disagree, and any of them may be wrong"};
  say(panel, kTrust[static_cast<std::size_t>(built.trust)]);
  if (built.trust == plan::Trust::Planned) return;
  if (built.settle_by) {
    const bool taken = plan::wasRead(built, *built.settle_by);
    say(panel,
        std::string("measure the ") + plan::wordsFor(*built.settle_by) + (taken ? " again" : " too") + " to settle it");
  }
  if (built.turned_free) saySmall(panel, "neither level nor plumb measured: the sill is taken as level");
  saySmall(panel, "each as measured, then how far off the others say it is");
  for (std::size_t i = 0; i < plan::kReadings; ++i) readingRow(panel, built, i);
  room(panel, 4.0F);
  shapeRows(panel, opening);
}

}  // namespace sillwright::view
