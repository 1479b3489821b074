#include "cli/text.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <string_view>

#include "base/words.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

int charactersIn(std::string_view text) { return static_cast<int>(base::countCharacters(text)); }

/// Mark and words together: the verdict is never told by its sign alone. A ring: not measured.
std::string verdictMark(check::Verdict verdict, check::Basis basis) {
  static constexpr std::array<const char*, 3> kMarks{"●", "▲", "■"};
  return std::string(basis == check::Basis::Planned ? "○" : "") + kMarks[static_cast<std::size_t>(verdict)] + " " +
         check::wordsFor(verdict) + ", " + check::wordsFor(basis);
}

/// As check::Severity.
constexpr std::array<const char*, 3> kSeverityMarks{"■ ", "▲ ", "· "};

/// A paragraph whose first line starts with `lead` and whose others are set under its text.
std::string paragraph(const std::string& lead, const std::string& text, int columns, int indent) {
  const int hang = indent + charactersIn(lead);
  const std::string margin(static_cast<std::size_t>(indent), ' ');
  return margin + lead + wrapped(text, columns, hang).substr(static_cast<std::size_t>(hang));
}

/// "; clearance to spare 4 mm", or what of it is missing; nothing where the measurements disagree.
std::string spareWords(const plan::Stand& stand, check::Basis basis, practice::Display display) {
  if (basis == check::Basis::Disputed) return {};
  return stand.spare < 0 ? "; does not fit by " + words::length(-stand.spare, display)
                         : "; clearance to spare " + words::length(stand.spare, display);
}

/// Answers how many notes were left out.
long appendFindings(std::string& out, const std::vector<check::Finding>& findings, int columns, bool notes) {
  long hidden = 0;
  for (const auto& finding : findings) {
    if (finding.severity == check::Severity::Note && !notes) {
      ++hidden;
      continue;
    }
    out += paragraph(kSeverityMarks[static_cast<std::size_t>(finding.severity)], finding.say, columns, 2);
    if (!finding.source.empty()) out += wrapped("[" + finding.source + "]", columns, 4);
    if (!finding.remedy.empty()) out += paragraph("→ ", finding.remedy, columns, 4);
    if (!finding.caution.empty()) out += paragraph("! ", finding.caution, columns, 4);
  }
  return hidden;
}

using takeoff::Table;
using Texts = std::vector<std::vector<std::string>>;

/// Characters that a text at the end of a line wants at least, so as not to be broken into a ribbon.
constexpr std::size_t kLeastToBreak = 12;

bool isText(const takeoff::Column& column) {
  return column.holds == takeoff::Holds::Text || column.holds == takeoff::Holds::Lengths;
}

/// Text to the left, numbers to the right of their column; the last column's text is broken where the line ends.
std::string inLine(const std::vector<takeoff::Column>& shown, const Texts& cells,
                   const std::vector<std::size_t>& widths, int columns) {
  const std::size_t last = widths.size() - 1;
  std::string out;
  const auto addRow = [&](const auto& textOf) {
    std::string line;
    for (std::size_t i = 0; i < last; ++i) {
      const std::string text = textOf(i);
      const std::string pad(widths[i] - base::countCharacters(text), ' ');
      line += "  " + (isText(shown[i]) ? text + pad : pad + text);
    }
    const std::string text = textOf(last);
    if (text.empty()) {
      line.erase(line.find_last_not_of(' ') + 1);  // the blanks that padded empty cells
      out += line + "\n";
      return;
    }
    const bool to_right = !isText(shown[last]);
    line += "  " + std::string(to_right ? widths[last] - base::countCharacters(text) : 0, ' ');
    const std::size_t hang = base::countCharacters(line);
    out += line + wrapped(text, columns, static_cast<int>(hang)).substr(hang);  // `line` stands where the margin was
  };
  addRow([&](std::size_t i) { return shown[i].name; });
  for (const auto& row : cells) addRow([&](std::size_t i) { return row[i]; });
  return out;
}

/// Each value after its column's name, but for a text that stands first: that is the row's own name.
std::string rowByRow(const std::vector<takeoff::Column>& shown, const Texts& cells, int columns) {
  std::string out;
  for (const auto& row : cells) {
    std::string said;
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i].empty()) continue;
      if (!said.empty()) said += "\u00a0· ";  // the dot ends a line, and begins none
      const bool own_name = i == 0 && isText(shown[i]);
      said += (own_name ? "" : shown[i].name + ":\u00a0") + row[i];  // no line ends between a name and its value
    }
    std::string text = wrapped(said, columns, 4);
    text.erase(0, 2);  // the first line stands out by two
    out += text;
  }
  return out;
}

}  // namespace

std::string wrapped(const std::string& text, int columns, int indent) {
  const std::string margin(static_cast<std::size_t>(indent), ' ');
  std::string out = words::wrapped(text, [&](std::string_view line) { return indent + charactersIn(line) <= columns; });
  for (auto at = out.find('\n'); at != std::string::npos; at = out.find('\n', at + 1)) out.insert(at + 1, margin);
  return margin + out + "\n";
}

CheckWords checkWords(const job::Job& job, const practice::Practice& practice, int columns, bool notes,
                      std::optional<std::size_t> only) {
  columns = std::max(columns, 32);  // narrower lines can't be read
  int widest = 4;
  for (const auto& opening : job.openings) widest = std::max(widest, charactersIn(opening.name) + 1);
  const auto padded = [width = std::min(widest, columns / 3)](const std::string& name) {
    return name + std::string(static_cast<std::size_t>(std::max(width - charactersIn(name), 0)), ' ');
  };
  std::atomic<long> hidden = 0;  // several threads count
  const auto wall = [&](std::string& out, const check::Part& part, std::size_t i) {
    if (only) return;  // only the opening that was asked for is told
    std::string told;
    hidden += appendFindings(told, part.findings.walls[i], columns, notes);
    if (!told.empty()) out += "\nwall " + part.job.walls[i].name + "\n" + told;
  };
  const auto opening = [&](std::string& out, const check::Part& part, std::size_t i) {
    if (only && *only != part.openings[i]) return;
    const check::Basis basis = part.findings.bases[i];
    out += "\n" + paragraph(padded(part.job.openings[i].name),
                            verdictMark(part.findings.verdicts[i], basis) +
                                spareWords(part.plan.openings[i].stand, basis, practice.display),
                            columns, 0);
    hidden += appendFindings(out, part.findings.openings[i], columns, notes);
  };
  const check::Said said = check::sayInParts(job, practice, wall, opening);
  std::string out = wrapped(job.title, columns, 0);
  if (!only) out += wrapped(check::summaryOf(said.whole.verdicts), columns, 0);
  out += base::joined(said.walls, "") + base::joined(said.openings, "") + "\n";
  if (hidden > 0) out += words::count(hidden, "note") + ": --notes\n";
  if (!said.whole.cautions.empty()) out += wrapped(said.whole.cautions.back(), columns, 0);  // the most general
  return {std::move(out), only ? said.whole.verdicts[*only] : said.whole.verdict};
}

std::string listText(const Table& table, practice::Display display, int columns) {
  columns = std::max(columns, 32);
  std::vector<takeoff::Column> shown;
  Texts cells(table.rows.size());
  std::vector<std::size_t> widths;
  std::size_t width = 0;
  // Details and columns without a word aren't shown; `width` is what the others take beside each other.
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    takeoff::Column column = table.columns[i];
    const auto isEmpty = [&](const auto& row) { return cellText(row[i], column, display).empty(); };
    if (column.detail || std::all_of(table.rows.begin(), table.rows.end(), isEmpty)) continue;
    column.name = takeoff::headingOf(column, display);
    std::size_t widest = base::countCharacters(column.name);
    for (std::size_t row = 0; row < cells.size(); ++row) {
      cells[row].push_back(cellText(table.rows[row][i], table.columns[i], display));
      widest = std::max(widest, base::countCharacters(cells[row].back()));
    }
    shown.push_back(column);
    widths.push_back(widest);
    width += widest + 2;
  }
  const bool breaks = !shown.empty() && isText(shown.back());
  const std::size_t needed = breaks ? width - widths.back() + std::min(widths.back(), kLeastToBreak) : width;
  std::string out = wrapped(table.title, columns, 0);
  if (!cells.empty()) {
    out += needed <= static_cast<std::size_t>(columns) ? inLine(shown, cells, widths, columns)
                                                       : rowByRow(shown, cells, columns);
  }
  for (const auto& note : table.notes) out += wrapped(note, columns, 2);
  return out;
}

}  // namespace sillwright::cli
