#include "job/rewrite.h"

#include <optional>
#include <tuple>
#include <utility>
#include <variant>

#include "job/read.h"
#include "job/spell.h"
#include "job/toml_layout.h"
#include "job/toml_table.h"

namespace sillwright::job {
namespace {

constexpr std::string_view kLineEnd = "\n";

/// Where the table that is being changed stands.
struct Where {
  std::string path;    ///< "opening.unit": what its header says.
  std::string prefix;  ///< "unit.": what its keys begin with where it has no header.
};

std::string wallOf(const Opening& opening, const Job& job) {  // empty: there is no such wall
  return opening.wall < job.walls.size() ? job.walls[opening.wall].name : std::string();
}

/// The part that stands where part `i` of `like` does; absent where there is no such table or list.
const Spelling& partOf(const Spelling& whole, std::size_t i, const Spelling& like) {
  static const Spelling kAbsent;
  return whole.parts.size() == like.parts.size() ? whole.parts[i].value : kAbsent;
}

bool isTable(const Spelling& value) { return value.shape == Shape::Table || value.shape == Shape::Section; }

class Rewriter {
 public:
  Rewriter(const TextLines& lines, const toml::table& root) : lines_(lines), root_(root), layout_(lines, root) {}

  std::string rewrite(const Job& old_job, const Job& new_job) {
    if (const auto* head = root_.get_as<toml::table>("job")) {
      editTable(*head, spell(old_job), spell(new_job), below({}, "job", *head));
    }
    editItems("wall", spellWalls(old_job), spellWalls(new_job), match(old_job.walls, new_job.walls));
    editItems("opening", spellOpenings(old_job), spellOpenings(new_job), match(old_job.openings, new_job.openings));
    editStock(old_job.stock, new_job.stock);
    return apply();  // all at once: an edit's place is in the old text
  }

 private:
  /// Which old wall or opening each new one was.
  using Was = std::vector<std::optional<std::size_t>>;

  static std::vector<Spelling> spellWalls(const Job& job) {
    std::vector<Spelling> all;
    for (const Wall& wall : job.walls) all.push_back(spell(wall));
    return all;
  }
  static std::vector<Spelling> spellOpenings(const Job& job) {
    std::vector<Spelling> all;
    for (const Opening& opening : job.openings) all.push_back(spell(opening, wallOf(opening, job)));
    return all;
  }

  Where below(const Where& where, std::string_view key, const toml::table& table) const {
    Where inner{where.path.empty() ? std::string(key) : where.path + "." + std::string(key), {}};
    if (layout_.formOf(table) == TableForm::Dotted) inner.prefix = where.prefix + std::string(key) + ".";
    return inner;
  }

  void replace(const toml::node& node, std::string by) {
    const Span span = layout_.spanOf(node);
    edits_.push_back({span.from, span.to, std::move(by)});
  }

  // A table's keys.

  void editTable(const toml::table& table, const Spelling& old_value, const Spelling& new_value, const Where& where) {
    const bool is_inline = layout_.formOf(table) == TableForm::Inline;
    if (is_inline && keysChange(table, old_value, new_value)) return replace(table, again(table, old_value, new_value));
    for (std::size_t i = 0; i < new_value.parts.size(); ++i) {
      const auto& [key, now] = new_value.parts[i];
      const Spelling& before = partOf(old_value, i, new_value);
      if (before == now) continue;
      const auto* node = table.get(key);
      if (node == nullptr) {
        insertKey(table, new_value, i, where);
      } else if (now.shape == Shape::Absent) {
        removeKey(*node);
      } else if (!editValue(*node, before, now, where, key)) {
        removeKey(*node);  // its new line has the usual form
        insertKey(table, new_value, i, where);
      }
    }
  }

  /// Whether a table in braces gains or loses keys, or holds what can't be changed by itself.
  bool keysChange(const toml::table& table, const Spelling& old_value, const Spelling& new_value) const {
    for (std::size_t i = 0; i < new_value.parts.size(); ++i) {
      const auto& [key, now] = new_value.parts[i];
      if (partOf(old_value, i, new_value) == now) continue;
      const auto* node = table.get(key);
      if (node == nullptr || now.shape == Shape::Absent || !layout_.isOnePiece(*node)) return true;
    }
    return false;
  }

  /// A table in braces with its keys in the order they stand in, unchanged values as they are spelt, new keys last.
  std::string again(const toml::table& table, const Spelling& old_value, const Spelling& new_value) const {
    struct Entry {
      std::size_t at;
      std::string text;
    };
    std::vector<Entry> entries;
    for (std::size_t i = 0; i < new_value.parts.size(); ++i) {
      const auto& [key, now] = new_value.parts[i];
      const auto* node = table.get(key);
      const bool same = partOf(old_value, i, new_value) == now;
      if (now.shape == Shape::Absent && !(same && node != nullptr)) continue;  // a usual value that is spelt stays
      const bool kept = node != nullptr && same && layout_.isOnePiece(*node);
      if (!kept && now.shape == Shape::Absent) continue;
      const std::size_t at = node == nullptr ? lines_.text().size() : layout_.spanOf(*node).from;  // new: last
      entries.push_back({at, std::string(key) + " = " + (kept ? std::string(layout_.textOf(*node)) : inlineText(now))});
    }
    std::stable_sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) { return a.at < b.at; });
    return entries.empty() ? "{}" : "{ " + base::joined(entries, ", ", &Entry::text) + " }";
  }

  /// Changes a value where it stands. False: it is spread over lines of its own and can't become what is asked.
  bool editValue(const toml::node& node, const Spelling& before, const Spelling& now, const Where& where,
                 std::string_view key) {
    if (const auto* table = node.as_table()) {
      if (isTable(now) || now.shape == Shape::Readings) {  // else a value takes the table's place, below
        editTable(*table, before, now, below(where, key, *table));
        return true;
      }
    }
    if (!layout_.isOnePiece(node)) return false;
    const auto* array = node.as_array();
    const bool keeps_form = array != nullptr && now.shape != Shape::Scalar && !isTable(now) &&  // only elements change
                            array->size() == now.parts.size() && isComplete(now);
    if (keeps_form) {
      editList(*array, before, now);
    } else if (inlineText(before) != inlineText(now)) {  // a level top's height can stay while its length changes
      replace(node, inlineText(now));
    }
    return true;
  }

  void editList(const toml::array& array, const Spelling& before, const Spelling& now) {
    for (std::size_t i = 0; i < array.size(); ++i) {
      const Spelling& old_element = partOf(before, i, now);
      const Spelling& element = now.parts[i].value;
      if (old_element == element) continue;
      const auto* inner = array[i].as_array();
      if (inner != nullptr && inner->size() == element.parts.size()) {
        editList(*inner, old_element, element);
      } else {
        replace(array[i], inlineText(element));
      }
    }
  }

  void insertKey(const toml::table& table, const Spelling& whole, std::size_t i, const Where& where) {
    const auto& [key, value] = whole.parts[i];
    const TableForm form = layout_.formOf(table);
    if (form == TableForm::Header && value.shape == Shape::Section) {
      const std::string path = where.path + "." + std::string(key);
      const std::string_view ending = lines_.ending();
      insertSection(layout_.endOf(table), std::string(ending) + sectionText(path, false, value, ending));
      return;
    }
    // Behind the key that usually stands before it; else first under the header, or before the table's other keys.
    const auto own = layout_.valuesIn(table, false);
    const toml::node* anchor = nullptr;  // the nearest key that the rule's order has before this one
    for (std::size_t j = i; j > 0 && anchor == nullptr; --j) anchor = lastValueOf(table, whole.parts[j - 1].key);
    std::size_t at = 0;
    if (anchor != nullptr) {
      at = layout_.linesOf(*anchor).to;
    } else if (form == TableForm::Header) {
      at = lines_.lineEnd(layout_.spanOf(table).from);
    } else if (!own.empty()) {
      at = layout_.linesOf(*own.front()).from;
    }
    if (anchor == nullptr && !own.empty()) anchor = own.front();  // the new line looks like its
    edits_.push_back({at, at, lineLike(anchor, own, where.prefix + std::string(key), inlineText(value))});
  }

  /// The last line of a key that stands right in the table, or null.
  const toml::node* lastValueOf(const toml::table& table, std::string_view key) const {
    const auto* node = table.get(key);
    if (node == nullptr) return nullptr;
    if (layout_.isOnePiece(*node)) return node;
    const auto* inner = node->as_table();
    if (inner == nullptr || layout_.formOf(*inner) == TableForm::Header) return nullptr;
    const auto values = layout_.valuesIn(*inner, false);
    return values.empty() ? nullptr : values.back();
  }

  /// From the start of a value's line up to the value.
  std::string_view leadTo(const toml::node& value) const {
    const std::size_t from = layout_.spanOf(value).from;
    const std::size_t start = lines_.lineStart(from);
    return lines_.text().substr(start, from - start);
  }

  /// A line with the indent of another key's, and its `=` in that one's column where the keys around are so laid out.
  std::string lineLike(const toml::node* model, const std::vector<const toml::node*>& around, const std::string& key,
                       const std::string& value) const {
    const std::string_view lead = model == nullptr ? std::string_view{} : leadTo(*model);
    const std::size_t indent = std::min(lead.find_first_not_of(" \t"), lead.size());
    const bool in_columns = std::any_of(around.begin(), around.end(), [this](const auto* node) {
      return leadTo(*node).find("  =") != std::string_view::npos;  // two blanks: someone aligned them
    });
    const std::size_t equals = std::min(lead.rfind('='), lead.size());
    std::string out(lead.substr(0, indent));
    out.append(key).append(" ");
    if (in_columns && out.size() < equals) out.append(equals - out.size(), ' ');
    return out.append("= ").append(value).append(lines_.ending());
  }

  void removeKey(const toml::node& node) {
    if (layout_.isOnePiece(node)) {
      const Span span = layout_.linesOf(node);
      return edits_.push_back({span.from, span.to, {}});
    }
    if (const auto* tables = node.as_array()) {
      for (const auto& each : *tables) removeSections(*each.as_table());
      return;
    }
    const auto* table = node.as_table();
    if (table == nullptr) return;
    for (const auto* value : layout_.valuesIn(*table, false)) removeKey(*value);
    removeSections(*table);
  }

  /// A table's sections, and of the blank lines around them as many as leave one gap where there were two.
  void removeSections(const toml::table& table) {
    const auto headers = layout_.headersIn(table);
    for (std::size_t i = 0; i < headers.size(); ++i) {
      Span span = layout_.sectionAt(headers[i]);
      std::size_t below = span.to;
      while (lines_.isBlank(below)) below = lines_.lineEnd(below);
      const bool is_last = i + 1 == headers.size();
      const bool gap_above = isGap(layout_.sectionAt(headers.front()).from);  // then the gap below goes too
      const bool goes_on = !is_last && below == layout_.sectionAt(headers[i + 1]).from;
      if (goes_on || (is_last && gap_above)) span.to = below;
      const bool at_end = i == 0 && gap_above && below == lines_.text().size();  // a text doesn't end in a gap
      while (at_end && span.from > 0 && lines_.isBlank(span.from - 1)) span.from = lines_.lineStart(span.from - 1);
      edits_.push_back({span.from, span.to, {}});
    }
  }

  /// Whether nothing or a blank line is above the line that starts here.
  bool isGap(std::size_t line_start) const { return line_start == 0 || lines_.isBlank(line_start - 1); }

  // Walls and openings.

  void editItems(const std::string& name, const std::vector<Spelling>& before, const std::vector<Spelling>& now,
                 const Was& was) {
    const auto* array = root_.get_as<toml::array>(name);
    if (array != nullptr && layout_.isOnePiece(*array)) return editInlineItems(*array, before, now, was);
    // An old item that no new one was is removed; a new one goes behind the one before it that was there.
    std::vector<bool> stays(before.size());
    for (const auto& index : was) {
      if (index) stays[*index] = true;
    }
    for (std::size_t i = 0; i < before.size(); ++i) {
      if (!stays[i]) removeSections(*(*array)[i].as_table());
    }
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < now.size(); ++i) {
      if (was[i]) {
        last = was[i];
        editTable(*(*array)[*last].as_table(), before[*last], now[i], {name, {}});
      } else {
        insertItem(name, array, last, now[i]);
      }
    }
  }

  void insertItem(const std::string& name, const toml::array* array, std::optional<std::size_t> after,
                  const Spelling& item) {
    const std::string ending(lines_.ending());
    const std::string section = sectionText(name, true, item, ending);
    if (after) {
      insertSection(layout_.endOf(*(*array)[*after].as_table()), ending + section);
    } else if (array != nullptr) {
      insertSection(layout_.sectionAt(layout_.headersIn(*array->front().as_table()).front()).from, section + ending);
    } else {
      insertSection(endOfWalls(), ending + section);  // the file has none yet
    }
  }

  std::size_t endOfWalls() const {
    std::size_t end = 0;
    const auto* walls = root_.get_as<toml::array>("wall");
    if (walls == nullptr || layout_.isOnePiece(*walls)) return lines_.text().size();  // no section marks an end
    for (const auto& wall : *walls) end = std::max(end, layout_.endOf(*wall.as_table()));
    return end;
  }

  /// An array of tables in braces: changed where it stands, or written again where tables come or go.
  void editInlineItems(const toml::array& array, const std::vector<Spelling>& before, const std::vector<Spelling>& now,
                       const Was& was) {
    const bool all_stay = before.size() == now.size() && std::count(was.begin(), was.end(), std::nullopt) == 0;
    std::string out;
    for (std::size_t i = 0; i < now.size(); ++i) {
      const auto* table = was[i] ? array[*was[i]].as_table() : nullptr;
      if (all_stay) {
        editTable(*table, before[*was[i]], now[i], {});
      } else {
        const auto text = table == nullptr ? inlineText(now[i]) : again(*table, before[*was[i]], now[i]);
        out.append(out.empty() ? "" : ",").append(lines_.ending()).append("  ").append(text);
      }
    }
    if (!all_stay) replace(array, "[" + out + (out.empty() ? "" : std::string(lines_.ending())) + "]");
  }

  /// In the order of the old ones: what was moved is written anew.
  template <class Item>
  static Was match(const std::vector<Item>& old_items, const std::vector<Item>& new_items) {
    Was was(new_items.size());
    auto next = old_items.begin();
    for (std::size_t i = 0; i < new_items.size(); ++i) {
      const base::Place place = new_items[i].place;
      const auto found = std::find_if(next, old_items.end(), [&](const Item& old) { return old.place == place; });
      if (place.line == 0 || found == old_items.end()) continue;  // no place: it is new
      was[i] = static_cast<std::size_t>(found - old_items.begin());
      next = found + 1;
    }
    return was;
  }

  void editStock(const std::optional<Stock>& before, const std::optional<Stock>& now) {
    const auto* table = root_.get_as<toml::table>("stock");
    if (table != nullptr && now) {  // `before` lacks where the file's table is empty
      editTable(*table, before ? spell(*before) : Spelling{}, spell(*now), below({}, "stock", *table));
    } else if (table != nullptr) {
      removeKey(*table);
    } else if (now) {
      const std::string ending(lines_.ending());
      insertSection(lines_.text().size(), ending + sectionText("stock", false, spell(*now), ending));
    }
  }

  /// Lines that begin a section: at one place they come after all lines of the section before.
  void insertSection(std::size_t at, std::string lines) { edits_.push_back({at, at, std::move(lines), true}); }

  /// The text with all edits. Of two at one place the one that was noted first comes first, sections last; what is put
  /// in inside of something removed stands after it. Where the last line has no line end and lines come after it, it
  /// gets one, and the text again ends without.
  std::string apply() const {
    std::vector<Edit> order = edits_;
    std::stable_sort(order.begin(), order.end(), [](const Edit& a, const Edit& b) {
      return std::tie(a.from, a.is_section) < std::tie(b.from, b.is_section);
    });
    const std::string_view text = lines_.text();
    const std::string_view ending = lines_.ending();
    std::string out;
    std::size_t at = 0;
    bool chopped = false;
    for (const auto& [from, to, by, is_section] : order) {
      if (from > at) out.append(text.substr(at, from - at));
      const bool at_open_end = from == text.size() && to == from && !out.empty() && out.back() != '\n';
      if (at_open_end) {
        out.append(ending);
        chopped = true;
      }
      out.append(by);
      at = std::max({at, from, to});  // what stands inside something removed doesn't bring it back
    }
    out.append(text.substr(at));
    if (chopped && out.ends_with(ending)) out.resize(out.size() - ending.size());
    return out;
  }

  /// Puts `by` in the place of the bytes from … to of the text as it was: noting one doesn't move another.
  struct Edit {
    std::size_t from;
    std::size_t to;
    std::string by;
    bool is_section = false;
  };

  const TextLines& lines_;
  const toml::table& root_;
  TomlLayout layout_;
  std::vector<Edit> edits_;
};

}  // namespace

bool sameValues(const Job& a, const Job& b) { return write(a) == write(b); }

std::string write(const Opening& opening, const std::string& wall) {
  return sectionText("opening", true, spell(opening, wall), kLineEnd);
}

std::string write(const Job& job) {
  std::string text = sectionText("job", false, spell(job), kLineEnd);
  for (const Wall& wall : job.walls) text.append("\n").append(sectionText("wall", true, spell(wall), kLineEnd));
  for (const Opening& opening : job.openings) {
    text.append("\n").append(write(opening, wallOf(opening, job)));
  }
  if (job.stock) text.append("\n").append(sectionText("stock", false, spell(*job.stock), kLineEnd));
  return text;
}

base::Result<std::string> rewrite(std::string_view text, const Job& old_job, const Job& new_job) {
  if (sameValues(old_job, new_job)) return {std::string(text), {}};  // not a byte changes
  const auto tree = parseToml(text);
  if (const auto* fault = std::get_if<SyntaxFault>(&tree)) return {{}, {{old_job.file, fault->at, "", fault->say}}};
  const auto as_read = read(text, old_job.file);  // items are matched by their places in this very text
  if (!as_read.ok() || !sameValues(*as_read.value, old_job)) {
    return {{}, {{old_job.file, {}, "", "this text is not the one that the job was read from"}}};
  }
  const TextLines lines(text);
  std::string rewritten = Rewriter(lines, std::get<toml::table>(tree)).rewrite(*as_read.value, new_job);
  auto read_back = read(rewritten, new_job.file);  // a text that is not the new job is never saved
  if (!read_back.ok()) return {{}, std::move(read_back.errors)};
  if (!sameValues(*read_back.value, new_job)) {
    return {{},
            {{new_job.file, {}, "", "this file's layout can't be kept with these changes; save under another name"}}};
  }
  return {std::move(rewritten), {}};
}

}  // namespace sillwright::job
