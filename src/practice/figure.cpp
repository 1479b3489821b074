#include "practice/figure.h"

#include <algorithm>

namespace sillwright::practice {

const Figure* Bands::at(double size) const {
  const auto found = std::find_if(bands.begin(), bands.end(), [size](const Band& band) { return size <= band.up_to; });
  return found == bands.end() ? nullptr : &found->figure;
}

const Figure* ByClass::at(std::string_view wind) const {
  const auto found =
      std::find_if(entries.begin(), entries.end(), [wind](const ClassFigure& entry) { return entry.wind == wind; });
  return found == entries.end() ? nullptr : &found->figure;
}

std::string cite(const Figure& figure) {
  if (figure.status == Status::CommonPractice) {
    return figure.source;
  }
  std::string words = figure.source;
  if (!figure.clause.empty()) {
    words += " " + figure.clause;
  }
  if (!figure.edition.empty()) {
    words += ", " + figure.edition;
  }
  if (figure.status == Status::Memory) {
    words += " (from memory)";
  }
  return words;
}

const char* toWord(Status status) {
  return kStatusWords[static_cast<std::size_t>(status)].data();  // a literal, so it ends with a zero
}

}  // namespace sillwright::practice
