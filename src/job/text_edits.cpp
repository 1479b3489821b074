#include "job/text_edits.h"

#include <algorithm>
#include <utility>

#include "base/utf8.h"

namespace sillwright::job {
namespace {

bool isContinuation(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

}  // namespace

TextLines::TextLines(std::string_view text) : text_(text), starts_{text.starts_with(base::kByteOrderMark) ? 3U : 0U} {
  for (std::size_t i = text.find('\n'); i != std::string_view::npos; i = text.find('\n', i + 1)) {
    starts_.push_back(i + 1);
  }
}

std::size_t TextLines::offsetOf(base::Place place) const {
  if (place.line == 0 || place.line > starts_.size()) return text_.size();
  std::size_t at = starts_[place.line - 1];
  for (std::uint32_t column = 1; column < place.column && at < text_.size(); ++column) {
    ++at;
    while (at < text_.size() && isContinuation(text_[at])) ++at;
  }
  return at;
}

std::size_t TextLines::lineStart(std::size_t offset) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  return after == starts_.begin() ? starts_.front() : *(after - 1);
}

std::size_t TextLines::lineEnd(std::size_t offset) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  return after == starts_.end() ? text_.size() : *after;
}

std::string_view TextLines::line(std::size_t offset) const {
  const std::size_t start = lineStart(offset);
  auto line = text_.substr(start, lineEnd(offset) - start);
  if (line.ends_with('\n')) line.remove_suffix(1);
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

std::string_view TextLines::ending() const {
  const std::size_t end = text_.find('\n');
  return end != std::string_view::npos && end > 0 && text_[end - 1] == '\r' ? "\r\n" : "\n";
}

bool TextLines::isBlank(std::size_t offset) const {
  return offset < text_.size() && line(offset).find_first_not_of(" \t") == std::string_view::npos;
}

bool TextLines::isComment(std::size_t offset) const {
  if (offset >= text_.size()) return false;
  const auto whole = line(offset);
  const std::size_t first = whole.find_first_not_of(" \t");
  return first != std::string_view::npos && whole[first] == '#';
}

void TextEdits::replace(std::size_t from, std::size_t to, std::string by) {
  edits_.push_back({from, to, std::move(by)});
}

void TextEdits::insertLines(std::size_t at, std::string whole_lines) {
  edits_.push_back({at, at, std::move(whole_lines)});
}

void TextEdits::insertSection(std::size_t at, std::string whole_lines) {
  edits_.push_back({at, at, std::move(whole_lines), true});
}

std::string TextEdits::apply() const {
  std::vector<const Edit*> order;
  for (const Edit& edit : edits_) order.push_back(&edit);
  std::stable_sort(order.begin(), order.end(), [](const Edit* a, const Edit* b) {
    return a->from != b->from ? a->from < b->from : a->is_section < b->is_section;
  });
  const std::string_view text = lines_.text();
  const std::string_view ending = lines_.ending();
  std::string out;
  std::size_t at = 0;
  bool chopped = false;
  for (const Edit* edit : order) {
    if (edit->from > at) out.append(text.substr(at, edit->from - at));
    const bool at_open_end = edit->from == text.size() && edit->to == edit->from && !out.empty() && out.back() != '\n';
    if (at_open_end) {
      out.append(ending);
      chopped = true;
    }
    out.append(edit->by);
    at = std::max({at, edit->from, edit->to});
  }
  out.append(text.substr(at));
  if (chopped && out.ends_with(ending)) out.resize(out.size() - ending.size());
  return out;
}

}  // namespace sillwright::job
