#include "job/toml_layout.h"

#include <algorithm>

#include "job/toml_table.h"

namespace sillwright::job {

TomlLayout::TomlLayout(const TextLines& lines, const toml::table& root) : lines_(lines) {
  std::vector<const toml::node*> values;
  for (const auto& [key, node] : root) collect(node, true, &headers_, &values);
  std::sort(headers_.begin(), headers_.end());
  headers_.erase(std::unique(headers_.begin(), headers_.end()), headers_.end());
  values_.reserve(values.size());
  for (const auto* value : values) values_.push_back(spanOf(*value));
  std::sort(values_.begin(), values_.end(), [](Span a, Span b) { return a.from < b.from; });
}

Span TomlLayout::spanOf(const toml::node& node) const {
  const auto end = node.source().end;
  return {lines_.offsetOf(placeOf(node)), lines_.offsetOf({end.line, end.column})};
}

std::string_view TomlLayout::textOf(const toml::node& node) const {
  const Span span = spanOf(node);
  return lines_.text().substr(span.from, span.to - span.from);
}

TableForm TomlLayout::formOf(const toml::table& table) const {
  const std::size_t at = lines_.offsetOf(placeOf(table));
  const char first = at < lines_.text().size() ? lines_.text()[at] : ' ';
  if (first == '[') return TableForm::Header;
  return first == '{' ? TableForm::Inline : TableForm::Dotted;
}

bool TomlLayout::isOnePiece(const toml::node& node) const {
  if (const auto* table = node.as_table()) return formOf(*table) == TableForm::Inline;
  const auto* array = node.as_array();
  const bool of_tables = array != nullptr && !array->empty() && array->front().is_table();
  return !of_tables || formOf(*array->front().as_table()) == TableForm::Inline;
}

void TomlLayout::collect(const toml::node& node, bool with_headers, std::vector<std::size_t>* headers,
                         std::vector<const toml::node*>* values) const {
  if (isOnePiece(node)) {
    if (values != nullptr) values->push_back(&node);
    return;
  }
  if (const auto* array = node.as_array()) {
    if (!with_headers) return;
    for (const auto& element : *array) collect(element, with_headers, headers, values);
    return;
  }
  const auto& table = *node.as_table();
  if (formOf(table) == TableForm::Header) {
    if (!with_headers) return;
    if (headers != nullptr) headers->push_back(spanOf(table).from);
  }
  for (const auto& [key, inner] : table) collect(inner, with_headers, headers, values);
}

Span TomlLayout::linesOf(const toml::node& node) const {
  const Span span = spanOf(node);
  return {lines_.lineStart(span.from), lines_.lineEnd(std::max(span.from, span.to - 1))};
}

std::vector<const toml::node*> TomlLayout::valuesIn(const toml::table& table, bool with_headers) const {
  std::vector<const toml::node*> values;
  for (const auto& [key, node] : table) collect(node, with_headers, nullptr, &values);
  std::sort(values.begin(), values.end(),
            [this](const auto* a, const auto* b) { return spanOf(*a).from < spanOf(*b).from; });
  return values;
}

std::vector<std::size_t> TomlLayout::headersIn(const toml::table& table) const {
  std::vector<std::size_t> headers;
  collect(table, true, &headers, nullptr);
  std::sort(headers.begin(), headers.end());
  headers.erase(std::unique(headers.begin(), headers.end()), headers.end());
  return headers;
}

Span TomlLayout::sectionAt(std::size_t header) const {
  const auto next = std::upper_bound(headers_.begin(), headers_.end(), header);
  const std::size_t limit = next == headers_.end() ? lines_.text().size() : *next;
  const auto past = std::lower_bound(values_.begin(), values_.end(), limit,
                                     [](Span value, std::size_t at) { return value.from < at; });
  const bool has_values = past != values_.begin() && (past - 1)->from > header;
  std::size_t end = lines_.lineEnd(has_values ? (past - 1)->to - 1 : header);
  // Comments right below go with the section, unless they stand on top of the next header.
  std::size_t below = end;
  while (lines_.isComment(below)) below = lines_.lineEnd(below);
  if (below == lines_.text().size() || lines_.isBlank(below)) end = below;
  return {lines_.lineStart(header), end};
}

std::size_t TomlLayout::endOf(const toml::table& table) const {
  std::size_t end = 0;
  for (const std::size_t header : headersIn(table)) end = std::max(end, sectionAt(header).to);
  return end;
}

}  // namespace sillwright::job
