#include "job/keys.h"

#include <algorithm>
#include <functional>

#include "job/spell.h"
#include "job/toml_table.h"

namespace sillwright::job {
namespace {

/// Sets the one key of a description that has the wanted name.
template <class T>
struct OneKey {
  T& into;
  std::string_view wanted;
  const toml::node* node;  ///< Null: to be left out.
  Mistakes& mistakes;

  void header(std::string_view) {}
  void place(base::Place T::*) {}
  void place(std::string_view, base::Place T::*) {}

  template <class Member>
  void operator()(std::string_view name, Member member, const Holds&, std::string_view) {
    if (name != wanted) return;
    decltype(auto) value = std::invoke(member, into);
    const KeyRule& rule = *tableOf<T>().find(name);  // describe() made the table, so it has the name
    if (node == nullptr && rule.required) return mistakes.add({}, std::string(name), "can't be left out");
    if constexpr (std::is_reference_v<decltype(value)>) value = {};  // a pair comes as references, and stays
    if (node != nullptr) readValue(Entry{mistakes, *node, rule.holds, {nullptr, name}, rule.required}, value);
  }
};

/// What a job may leave out, begun where it is; what stays empty of it is left out again.
template <class T>
T& begun(std::optional<T>& table) {
  return table ? *table : table.emplace();
}
template <class T>
T begun(const std::optional<T>& table) {
  return table.value_or(T{});
}

/// Calls `act` with the table of the job, which may be const.
template <class AnyJob, class Act>
auto withTable(AnyJob& job, TableKind table, std::size_t of, const Act& act) {
  switch (table) {
    case TableKind::Job:
      return act(job);
    case TableKind::Wall:
      return act(job.walls[of]);
    case TableKind::Opening:
      return act(job.openings[of]);
    case TableKind::Unit:
      return act(job.openings[of].unit);
    case TableKind::Stock:
      return act(begun(job.stock));
    case TableKind::Measured:
      break;  // below: some compilers don't see that the cases are all
  }
  return act(begun(job.openings[of].measured));
}

std::string setWhole(Job& job, const KeyPlace& place, const std::string& text) {
  Mistakes mistakes{{}};  // of no file: only the words are told
  const toml::parse_result parsed = [&] {
    try {
      return toml::parse(text.empty() ? std::string{} : "value = " + text);  // no key: it is left out
    } catch (const toml::parse_error&) {
      return toml::parse("value = []");  // which no key takes that a person can misspell so
    }
  }();
  withTable(job, place.table, place.of, [&](auto& table) {
    OneKey<std::remove_reference_t<decltype(table)>> one{table, place.key, parsed.get("value"), mistakes};
    std::remove_reference_t<decltype(table)>::describe(one);
  });
  if (job.stock == Stock{}) job.stock.reset();  // an empty table is none, as in a file
  for (Opening& each : job.openings) {
    if (each.measured == Measured{}) each.measured.reset();
  }
  const std::vector<base::Error> errors = std::move(mistakes).take();
  return errors.empty() ? std::string{} : errors.front().say;  // the first says enough of one key
}

}  // namespace

std::vector<KeyText> keysOf(const Job& job, TableKind kind, std::size_t of) {
  return withTable(job, kind, of, [&](const auto& table) {
    std::vector<KeyText> keys;
    const auto& rules = tableOf<std::remove_cvref_t<decltype(table)>>().keys;
    const Spelling all = spell(table);
    for (std::size_t i = 0; i < rules.size(); ++i) {
      const std::string name{rules[i].name};
      const Spelling& value = all.parts[i].value;
      const TableRule* inner = rules[i].holds.form == Form::Table ? rules[i].holds.table : nullptr;
      if (inner == nullptr) keys.push_back({{kind, of, name, {}}, &rules[i], inlineText(value)});
      for (std::size_t j = 0; inner != nullptr && inner->header.empty() && j < inner->keys.size(); ++j) {
        const bool there = value.shape != Shape::Absent;
        keys.push_back({{kind, of, name, std::string(inner->keys[j].name)},
                        &inner->keys[j],
                        there ? inlineText(value.parts[j].value) : std::string{}});
      }
    }
    return keys;
  });
}

std::string setKey(Job& job, const KeyPlace& place, const std::string& text, const Job& like) {
  if (place.inner.empty()) return setWhole(job, place, text);
  // A key of a table in braces: the table is spelt anew with it, and read as a whole.
  const auto textsIn = [&](const Job& of) {
    std::vector<KeyText> texts = keysOf(of, place.table, place.of);
    std::erase_if(texts, [&](const KeyText& each) { return each.place.key != place.key; });
    return texts;
  };
  std::vector<KeyText> texts = textsIn(job);
  const bool absent = std::all_of(texts.begin(), texts.end(), [](const KeyText& each) { return each.text.empty(); });
  if (absent) texts = textsIn(like);  // a table that begins takes its other keys from there
  std::string table;
  bool gone = false;
  for (const KeyText& each : texts) {
    const bool own = each.place.inner == place.inner;
    const std::string& value = own ? text : each.text;
    if (!value.empty()) table += (table.empty() ? "{ " : ", ") + each.place.inner + " = " + value;
    gone |= own && text.empty() && each.rule->required;  // the table is nothing without it
  }
  return setWhole(job, {place.table, place.of, place.key, {}}, gone || table.empty() ? std::string{} : table + " }");
}

}  // namespace sillwright::job
