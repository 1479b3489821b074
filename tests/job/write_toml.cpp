#include "write_toml.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <tuple>

#include "job/spell.h"

namespace sillwright::job::test {
namespace {

/// A number may have an exponent, which the program's own spelling never has; all else stays as it is spelt.
std::string scalar(const std::string& spelt, Chance& chance) {
  double value = 0;
  const char* end = spelt.data() + spelt.size();
  if (std::from_chars(spelt.data(), end, value).ptr != end || chance.even()) return spelt;
  std::array<char, 40> buffer{};
  return {buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr};
}

class Writer {
 public:
  explicit Writer(Chance& chance) : chance_(chance) {}

  std::string text;

  /// A header, its keys, and the sections in it.
  void section(const std::string& path, bool one_of_many, const Spelling& table) {
    if (one_of_many || path == "stock") text += "\n";
    text += one_of_many ? "[[" + path + "]]\n" : "[" + path + "]\n";
    for (const auto& [key, value] : table.parts) {
      if (value.shape != Shape::Section) line(std::string(key), value);
    }
    for (const auto& [key, value] : table.parts) {
      if (value.shape == Shape::Section) section(path + "." + std::string(key), false, value);
    }
  }

 private:
  void line(const std::string& key, const Spelling& value) {
    if (value.shape == Shape::Absent) return;
    const auto is_there = [](const Part& part) { return part.value.shape != Shape::Absent; };
    if (value.shape == Shape::Table && std::any_of(value.parts.begin(), value.parts.end(), is_there) &&
        chance_.even()) {
      for (const auto& [inner, part] : value.parts) line(key + "." + std::string(inner), part);
    } else {
      text += key + " = " + inlined(value) + "\n";
    }
  }

  std::string inlined(const Spelling& value) {
    switch (value.shape) {
      case Shape::Scalar:
        return scalar(value.text, chance_);
      case Shape::Outline:
        if (value.parts.size() == 2 && chance_.even()) {
          const auto& [left, right] = std::tie(value.parts[0].value, value.parts[1].value);
          if (left.parts[1] == right.parts[1]) return inlined(left.parts[1].value);
        }
        return array(value);
      case Shape::List:
        return array(value);
      case Shape::Readings: {
        const auto missing = [](const Part& part) { return part.value.shape == Shape::Absent; };
        const bool all = std::none_of(value.parts.begin(), value.parts.end(), missing);
        return all && chance_.even() ? array(value) : braced(value);
      }
      default:
        return braced(value);
    }
  }

  std::string array(const Spelling& list) {
    std::string out = "[";
    for (const Part& part : list.parts) out += (out.size() == 1 ? "" : ", ") + inlined(part.value);
    return out + "]";
  }

  std::string braced(const Spelling& table) {
    std::string out = "{";
    for (const auto& [key, value] : table.parts) {
      if (value.shape == Shape::Absent) continue;
      out.append(out.size() == 1 ? " " : ", ").append(key).append(" = ").append(inlined(value));
    }
    return out + " }";
  }

  Chance& chance_;
};

}  // namespace

double Chance::within(double from, double to) {
  const auto roll = engine_() % 16;
  if (roll == 0) return from;
  if (roll == 1) return to;
  const double share = static_cast<double>(engine_() >> 11U) / 9007199254740992.0;  // 53 bits: [0, 1)
  const double value = from + share * (to - from);
  const double rounded = std::round(value);
  return even() && rounded >= from && rounded <= to ? rounded : value;
}

std::string writeToml(const Job& job, Chance& chance) {
  Writer writer(chance);
  writer.section("job", false, spell(job));
  for (const auto& wall : job.walls) writer.section("wall", true, spell(wall));
  for (const auto& opening : job.openings)
    writer.section("opening", true, spell(opening, job.walls[opening.wall].name));
  if (job.stock) writer.section("stock", false, spell(*job.stock));
  return writer.text;
}

}  // namespace sillwright::job::test
