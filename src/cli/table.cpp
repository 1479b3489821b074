#include "cli/table.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "check/judge.h"
#include "words/length.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

int charactersIn(std::string_view text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string padded(std::string text, int width) {
  const int missing = width - charactersIn(text);
  if (missing > 0) text.append(static_cast<std::size_t>(missing), ' ');
  return text;
}

/// Mark and word together: the verdict is never told by its sign alone.
std::string verdictMark(check::Verdict verdict) {
  switch (verdict) {
    case check::Verdict::Ready:
      return "● ready";
    case check::Verdict::Attend:
      return "▲ attend";
    case check::Verdict::Unread:
      return "○ unread";
    case check::Verdict::Stop:
      return "■ stop";
  }
  return {};
}

const char* severityMark(check::Severity severity) {
  switch (severity) {
    case check::Severity::Stop:
      return "■ ";
    case check::Severity::Attend:
      return "▲ ";
    case check::Severity::Note:
      return "· ";
  }
  return "";
}

/// A paragraph whose first line starts with `lead` and whose others are set under its text.
std::string paragraph(const std::string& lead, const std::string& text, int columns, int indent) {
  const int hang = indent + charactersIn(lead);
  std::string body = wrapped(text, columns, hang);
  std::string first(static_cast<std::size_t>(indent), ' ');
  first += lead;
  return first + body.substr(static_cast<std::size_t>(hang));
}

void appendFindings(std::string& out, const std::vector<check::Finding>& findings, int columns, bool notes) {
  for (const auto& finding : findings) {
    if (finding.severity == check::Severity::Note && !notes) continue;
    out += paragraph(severityMark(finding.severity), finding.say, columns, 2);
    if (!finding.source.empty()) out += wrapped("[" + finding.source + "]", columns, 4);
    if (!finding.remedy.empty()) out += paragraph("→ ", finding.remedy, columns, 4);
    if (!finding.caution.empty()) out += paragraph("! ", finding.caution, columns, 4);
  }
}

std::string summary(const check::Findings& findings) {
  std::array<int, 4> number{};
  for (const auto verdict : findings.verdicts) ++number[static_cast<std::size_t>(verdict)];
  std::string said = words::count(static_cast<long>(findings.verdicts.size()), "opening");
  for (std::size_t i = 0; i < number.size(); ++i) {
    if (number[i] == 0) continue;
    said += (said.find(':') == std::string::npos ? ": " : ", ") + std::to_string(number[i]) + " " +
            check::toWord(static_cast<check::Verdict>(i));
  }
  return said + ".";
}

}  // namespace

std::string wrapped(const std::string& text, int columns, int indent) {
  const std::string margin(static_cast<std::size_t>(indent), ' ');
  std::string out;
  std::string line;
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t end = std::min(text.find(' ', from), text.size());
    const std::string_view word{text.data() + from, end - from};
    if (!line.empty() && indent + charactersIn(line) + 1 + charactersIn(word) > columns) {
      out += margin + line + "\n";
      line.clear();
    }
    if (!line.empty()) line += ' ';
    line += word;
    from = end + 1;
  }
  if (!line.empty() || out.empty()) out += margin + line + "\n";
  return out;
}

std::string checkTable(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                       const check::Findings& findings, int columns, bool notes) {
  columns = std::max(columns, 32);
  int name_width = 4;
  for (const auto& opening : job.openings) name_width = std::max(name_width, charactersIn(opening.name) + 1);
  name_width = std::min(name_width, columns / 3);

  std::string out = wrapped(job.title, columns, 0);
  out += wrapped(summary(findings), columns, 0);
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    const auto& of_wall = findings.walls[i];
    const bool worth = std::any_of(of_wall.begin(), of_wall.end(), [&](const auto& finding) {
      return notes || finding.severity != check::Severity::Note;
    });
    if (!worth) continue;
    out += "\nwall " + job.walls[i].name + "\n";
    appendFindings(out, of_wall, columns, notes);
  }
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const auto& planned = plan.openings[i];
    const std::string spare =
        check::shapeIsTrusted(planned.as_built) ? words::length(planned.stand.spare, practice.display) : "not judged";
    out += "\n" + padded(job.openings[i].name, name_width) + padded(verdictMark(findings.verdicts[i]), 9) + " spare " +
           spare + "\n";
    appendFindings(out, findings.openings[i], columns, notes);
  }
  out += "\n";
  if (!findings.cautions.empty()) out += wrapped(findings.cautions.back(), columns, 0);
  return out;
}

}  // namespace sillwright::cli
