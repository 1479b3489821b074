#include "exchange/office/columns.h"

#include <set>
#include <sstream>
#include <utility>

#include "base/words.h"
#include "exchange/office/schedule_terms.h"

namespace sillwright::exchange {
namespace {

std::vector<std::string> wordsIn(std::string_view text) {
  static constexpr std::pair<std::string_view, std::string_view> kParted[] = {
      {" r o ", " ro "}, {" o a ", " overall "}, {"wxh", "w x h"}, {"hxw", "h x w"}};
  std::string plain = " " + plainWords(text) + " ";  // with blanks at its ends kParted finds whole words there too
  for (const auto& [parted, is] : kParted) {         // each is replaced once: no heading says it twice
    if (const auto at = plain.find(parted); at != std::string::npos) plain.replace(at, parted.size(), is);
  }
  std::istringstream in(plain);
  std::vector<std::string> words;
  for (std::string word; in >> word;) words.emplace_back(sameWord(word, officeWords().heading_words));
  return words;
}

/// A heading as the tables of terms spell it: lower case, "w" as "width", without its unit.
std::string headingWords(std::string_view text, std::optional<LengthUnit>* unit = nullptr) {
  std::vector<std::string> words = wordsIn(text);
  if (words.size() > 1) {  // a heading that is a unit alone names nothing
    if (const auto named = lengthUnit(words.back())) {
      if (unit != nullptr) *unit = named;
      words.pop_back();
    }
  }
  // Of a group's heading: "Unit size (mm)" over "W".
  for (const auto& [word, is] : {std::pair("mm", LengthUnit::Millimetres), std::pair("cm", LengthUnit::Centimetres)}) {
    if (words.size() < 2 || std::erase(words, word) == 0) continue;  // "m" and "in" may be words here
    if (unit != nullptr) *unit = is;
  }
  const auto has = [&](const char* word) { return std::find(words.begin(), words.end(), word) != words.end(); };
  // A level is one above the floor, however that is written.
  for (const char* above : {"aff", "affl", "ffl"}) {
    if (words.size() > 1) std::erase(words, above);
  }
  if (has("width") || has("height")) words.erase(std::remove(words.begin(), words.end(), "size"), words.end());
  return base::joined(words, " ");
}

/// What a near miss was most likely meant to be.
std::string_view nearTerm(const std::string& words, Terms terms) {
  std::vector<std::string_view> known;
  for (const Term& term : terms) {
    known.push_back(term.ours);
    for (const std::string_view each : splitAt(term.theirs, ", ")) known.push_back(each);
  }
  // Short words are near to everything.
  const auto meant = words.size() < 5 ? std::string_view{} : base::nearest(words, known);
  return meant.empty() ? meant : std::string_view(termOf(meant, terms)->ours);
}

template <class Answers>
auto* answerFor(Answers& answers, std::string_view heading) {
  const std::string words = plainWords(heading);
  const auto found = std::find_if(answers.begin(), answers.end(),
                                  [&](const Answer& each) { return plainWords(each.theirs) == words; });
  return found == answers.end() ? nullptr : &*found;
}

std::string textAt(const CsvRow& row, std::size_t i) { return i < row.size() ? saidIn(row[i].text) : std::string{}; }

/// The headings of a row: each with that of its group in the row above, where that makes a name of the two.
std::vector<std::string> headingsOf(const CsvRow* above, const CsvRow& row, Terms terms) {
  std::vector<std::string> headings;
  std::string group;
  const std::size_t count = std::max(row.size(), above == nullptr ? 0 : above->size());
  for (std::size_t i = 0; i < count; ++i) {
    const std::string own = textAt(row, i);
    const std::string over = above == nullptr ? std::string{} : textAt(*above, i);
    if (!over.empty() || own.empty()) group = over;  // a group is named over its first column alone
    std::string both = group;                        // where it is no name, the group was the table's title
    both += (group.empty() || own.empty() ? "" : " ") + own;
    const bool names_both = own.empty() || termOf(headingWords(both), terms) != nullptr;
    headings.push_back(names_both ? both : own);
  }
  return headings;
}

/// What may stand on the right of an answer for a column: a term that asks nothing.
std::string_view oursOf(std::string_view said, Terms terms) {
  const Term* term = termOf(headingWords(said), terms);
  return term != nullptr && term->asks.empty() ? std::string_view(term->ours) : std::string_view{};
}

/// How many are columns of ours without a question.
std::size_t known(const std::vector<std::string>& headings, Terms terms) {
  return static_cast<std::size_t>(std::count_if(headings.begin(), headings.end(), [&](const std::string& heading) {
    return !heading.empty() && !oursOf(heading, terms).empty();
  }));
}

void understand(Column& column, Terms terms, std::vector<Answer>& answers) {
  const std::string words = headingWords(column.heading, &column.unit);
  if (Answer* answer = answerFor(answers, column.heading)) {
    column.ours = oursOf(answer->ours, terms);
    answer->used = !column.ours.empty() || answer->ours.empty();  // an empty answer passes the column over
    if (!answer->used) column.asks = "there is no column " + base::quote(answer->ours) + " here";
    return;
  }
  if (const Term* term = termOf(words, terms)) {
    column.asks = term->asks;
    if (term->asks.empty()) column.ours = term->ours;
  } else if (const auto meant = nearTerm(words, terms); !meant.empty()) {
    column.asks = "did you mean " + std::string(meant) + "?";
  }
}

}  // namespace

base::Result<std::vector<Answer>> answersIn(const std::vector<std::string>& said, const char* option) {
  base::Result<std::vector<Answer>> result;
  std::vector<Answer> answers;
  for (const std::string& each : said) {
    const auto equals = each.rfind('=');  // their name may have one, ours hasn't
    if (equals == std::string::npos || equals == 0) {
      result.errors.push_back({option, {}, {}, "wants NAME=VALUE, found " + base::quote(each)});
    } else {
      answers.push_back({each.substr(0, equals), saidIn(each.substr(equals + 1)), false});
    }
  }
  if (result.errors.empty()) result.value = std::move(answers);
  return result;
}

CountNames namesOf(Terms terms, const std::vector<Answer>& answers) {
  return [terms, answers](const CsvRow& row) {  // by value: the function outlives the call
    std::set<std::string> found;                // a name that stands twice counts once, and a sentence is no heading
    for (const CsvField& field : row) {
      const std::string words = field.text.size() > 80 ? std::string{} : headingWords(field.text);
      if (words.empty()) continue;
      if (termOf(words, terms) != nullptr || answerFor(answers, field.text) != nullptr) found.insert(words);
    }
    return found.size();
  };
}

std::optional<Heading> headingOf(const Grid& grid, Terms terms, std::vector<Answer>& answers) {
  Heading heading;
  heading.row = headerIn(grid.rows, namesOf(terms, answers));
  if (heading.row == grid.rows.size()) return std::nullopt;
  std::vector<std::string> headings = headingsOf(nullptr, grid.rows[heading.row], terms);
  // A row of groups with the names proper below it, or above it.
  for (const std::size_t lower : {heading.row + 1, heading.row}) {  // as the row of groups, then as the names below one
    if (lower == 0 || lower >= grid.rows.size()) continue;
    auto grouped = headingsOf(&grid.rows[lower - 1], grid.rows[lower], terms);
    if (known(grouped, terms) <= known(headings, terms)) continue;  // a row above must add names, or it is a title
    headings = std::move(grouped);
    heading.row = lower;
  }
  const CsvRow& row = grid.rows[heading.row];          // it may be shorter than `headings`: a group can reach further
  for (std::size_t i = 0; i < headings.size(); ++i) {  // every field has a column, so that they share an index
    const base::Place at = i < row.size() ? row[i].at : grid.rows[heading.row - 1][i].at;
    Column& column = heading.columns.emplace_back(Column{headings[i], at, {}, {}, {}});
    if (column.heading.empty()) continue;
    column.in_feet =
        std::any_of(grid.rows.begin() + static_cast<std::ptrdiff_t>(heading.row) + 1, grid.rows.end(),
                    [&](const CsvRow& each) { return textAt(each, i).find_first_of("'\"") != std::string::npos; });
    understand(column, terms, answers);
    if (column.ours.empty()) continue;
    const auto first = heading.find(column.ours);
    if (*first == i) continue;  // find gives the first column of that name
    column.asks =
        "a second column of " + std::string(column.ours) + ", beside " + base::quote(heading.columns[*first].heading);
  }
  return heading;
}

}  // namespace sillwright::exchange
