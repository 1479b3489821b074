// A rule set as a person reads it: each figure, where it comes from, how well that is known, and what uses it.

#include <algorithm>
#include <array>

#include "cli/files.h"
#include "cli/text.h"
#include "cli/uses.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "exchange/json.h"
#include "practice/read.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

using practice::Figure;
using practice::Listed;

/// "safety.glass" of "safety.glass.low_below", "wind.class[N3]" of "wind.class[N3].water_kpa".
std::string_view tableOf(std::string_view key) {
  const std::size_t name = key.rfind('.', key.find('[', key.find(']')));
  return name == std::string_view::npos ? std::string_view{} : key.substr(0, name);
}

std::string valueWords(const Figure& figure, practice::Display display) {
  if (figure.unit == "mm" || figure.unit == "kg") return words::amount(figure.value, figure.unit, 1, display);
  return job::toText(figure.value) + (figure.unit == "1" ? std::string{} : " " + figure.unit);
}

/// The source, and how well it is known where that isn't said with it.
std::string sourceWords(const Figure& figure) {
  const bool said = figure.status == practice::Status::Memory || figure.status == practice::Status::CommonPractice;
  return practice::cite(figure) + (said ? std::string{} : std::string(" (") + toWord(figure.status) + ")");
}

std::string useWords(const Use& use) {
  if (use.unused()) return "NOT USED";
  return use.findings.empty() ? "in " + use.elsewhere : "judged: " + base::joined(use.findings, ", ");
}

std::string figureText(const Listed& listed, std::string_view table, const Use& use, practice::Display display,
                       int columns) {
  const Figure& figure = *listed.figure;
  const std::string name = listed.key.substr(table.empty() ? 0 : table.size() + 1);
  std::string out = wrapped(name + ": " + valueWords(figure, display), columns, 2);
  out += wrapped(std::string(listed.about), columns, 6);
  out += wrapped("[" + sourceWords(figure) + "]", columns, 6);
  if (!figure.note.empty()) out += wrapped("Note: " + figure.note, columns, 6);
  return out + wrapped("→ " + useWords(use), columns, 6);
}

/// "412 figures: 96 published, … 3 are not used."
std::string summaryText(const std::vector<Listed>& figures, const std::vector<Use>& uses, int columns) {
  std::array<int, std::size(practice::kStatusWords)> by_status{};
  for (const Listed& listed : figures) ++by_status[static_cast<std::size_t>(listed.figure->status)];
  std::string said = words::count(static_cast<long>(figures.size()), "figure") + ": ";
  for (std::size_t i = 0; i < by_status.size(); ++i) {
    said += (i == 0 ? "" : ", ") + std::to_string(by_status[i]) + " " + std::string(practice::kStatusWords[i]);
  }
  const auto unused = std::count_if(uses.begin(), uses.end(), [](const Use& use) { return use.unused(); });
  said += unused == 0 ? ". All are used." : ". Marked NOT USED: " + std::to_string(unused) + ".";
  return wrapped(said, columns, 0);
}

std::string asText(const practice::Practice& practice, const std::vector<Listed>& figures, const std::vector<Use>& uses,
                   int columns) {
  std::string out = wrapped(practice.title + " (" + practice.file + ")", columns, 0);
  std::string_view before;
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const std::string_view table = tableOf(figures[i].key);
    if (i == 0 || table != before) out += "\n" + std::string(table) + "\n";  // the first table may be "" as well
    before = table;
    out += figureText(figures[i], table, uses[i], practice.display, columns);
  }
  return out + "\n" + summaryText(figures, uses, columns);
}

void writeFigure(exchange::JsonWriter& json, const Listed& listed, const Use& use) {
  const Figure& figure = *listed.figure;
  using exchange::ifAny;
  json.newLine().object("key", listed.key, "about", listed.about, "value", figure.value, "unit", figure.unit, "source",
                        figure.source, "clause", ifAny(figure.clause), "edition", ifAny(figure.edition), "status",
                        toWord(figure.status), "note", ifAny(figure.note), "findings", use.findings, "elsewhere",
                        ifAny(use.elsewhere), "used", !use.unused());
}

std::string asJson(const practice::Practice& practice, const std::vector<Listed>& figures,
                   const std::vector<Use>& uses) {
  std::string out;
  exchange::JsonWriter json(out);
  json.beginObject().member("format", "sillwright-practice/1").member("name", practice.name);
  json.member("title", practice.title).member("file", practice.file);
  json.key("figures").beginArray();
  for (std::size_t i = 0; i < figures.size(); ++i) writeFigure(json, figures[i], uses[i]);
  json.endArray().endObject();
  return out + "\n";
}

}  // namespace

int practiceFigures(const PracticeOptions& options) {
  practice::Practice practice = taken(practice::load(options.name, document::assetsFolder(), {}));
  const std::vector<Use> uses = usesOf(practice);
  const std::vector<Listed> figures = practice::figuresOf(practice);
  printAll(options.json ? asJson(practice, figures, uses) : asText(practice, figures, uses, columnsOfTerminal()));
  return kReady;
}

}  // namespace sillwright::cli
