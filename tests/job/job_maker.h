/// Jobs by chance, within the reader's own bounds, for the tests' round trips. Made of the tables' descriptions, so
/// that a key which is added is tried as well.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <tuple>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "base/words.h"
#include "job/job.h"
#include "job/tables.h"
#include "write_toml.h"

namespace sillwright::job::test {

/// Makes jobs by chance, within the reader's own bounds. `Luck` is asked as Chance is.
template <class Luck = Chance>
class JobMaker {
 public:
  explicit JobMaker(Luck& chance) : chance_(chance) {}

  Job job() {
    Job made = some<Job>();
    made.file = "made.toml";
    for (std::size_t i = chance_.below(4); i < 4; ++i) made.walls.push_back(wall("w" + std::to_string(i) + text()));
    for (std::size_t i = chance_.below(5); i < 4; ++i) {
      made.openings.push_back(opening("o" + std::to_string(i) + text()));
      made.openings.back().wall = chance_.below(made.walls.size());
    }
    if (chance_.even()) made.stock = stock();
    return made;
  }

  // Parts of it, for changing a job by chance.
  Wall wall(std::string name) {
    Wall made = some<Wall>();
    made.name = std::move(name);
    made.top = top(made.length);
    return made;
  }

  Opening opening(std::string name) {
    Opening made = some<Opening>();
    made.name = std::move(name);
    return made;
  }

  Stock stock() { return some<Stock>(); }

  std::string text() {
    static const std::vector<std::string> kPieces = {"a", "Z", "0",    " ", "\"", "\\", "#",
                                                     "é", "×", "🪟", "'", "=",  "]"};
    std::string made = "x";  // never all blank
    for (std::size_t i = chance_.below(12); i > 0; --i) made += kPieces[chance_.below(kPieces.size())];
    return made;
  }

 private:
  /// Fills a struct by its description.
  template <class T>
  struct Keys {
    JobMaker& maker;
    T made = {};

    void header(std::string_view) {}
    void place(base::Place T::*) {}
    void place(std::string_view, base::Place T::*) {}
    template <class Member>
    void operator()(std::string_view, Member member, const Holds& holds, std::string_view) {
      decltype(auto) value = std::invoke(member, made);
      maker.make(holds, value);
    }
  };
  template <class T>
  T some() {
    Keys<T> keys{*this};
    T::describe(keys);
    if constexpr (Headed<T>) {
      if (keys.made.head) keys.made.height = keys.made.head->top();
    }
    return std::move(keys.made);
  }

  void make(const Holds& holds, double& into) { into = chance_.within(holds.from, holds.to); }
  void make(const Holds& holds, int& into) {
    into = static_cast<int>(holds.from) +
           static_cast<int>(chance_.below(static_cast<std::size_t>(holds.to - holds.from) + 1));
  }
  void make(const Holds&, bool& into) { into = chance_.even(); }
  void make(const Holds& holds, std::string& into) {
    do {
      into = text();
    } while (static_cast<double>(base::countCharacters(into)) > holds.to);
  }
  void make(const Holds& holds, Date& into) {
    into = {static_cast<int>(chance_.within(holds.from, holds.to)), 1 + static_cast<int>(chance_.below(12)),
            1 + static_cast<int>(chance_.below(28))};
  }
  void make(const Holds&, std::size_t&) {}            // a wall, for whoever knows how many there are
  void make(const Holds&, std::vector<TopPoint>&) {}  // needs the wall's length
  void make(const Holds& holds, std::tuple<double&, double&> into) {
    if (holds.needed == false && !chance_.even()) return;
    make(holds, std::get<0>(into));
    make(holds, std::get<1>(into));
  }
  void make(const Holds& holds, std::vector<double>& into) {
    for (auto i = chance_.below(std::min<std::size_t>(6, holds.most + 1)); i > 0; --i) make(holds, into.emplace_back());
  }
  void make(const Holds&, std::vector<std::string>& into) {
    for (std::size_t i = chance_.below(4); i > 0; --i) into.push_back(text());
  }
  template <std::size_t N>
  void make(const Holds& holds, std::array<std::optional<double>, N>& into) {
    for (auto& value : into) {
      if (chance_.often()) make(holds, value.emplace());
    }
  }
  template <class A, class B>
  void make(const Holds& holds, std::variant<A, B>& into) {
    if (chance_.even()) return make(holds, into.template emplace<A>());
    make(holds, into.template emplace<B>());
  }
  template <class T>
  void make(const Holds& holds, std::optional<T>& into) {
    if (chance_.even()) make(holds, into.emplace());
  }
  template <class T>
  requires std::is_enum_v<T>
  void make(const Holds& holds, T& into) { into = static_cast<T>(chance_.below(holds.words.size())); }
  template <class T>
  requires std::is_enum_v<T>
  void make(const Holds& holds, std::vector<T>& into) {
    for (std::size_t i = 0; i < holds.words.size(); ++i) {
      if (chance_.even()) into.push_back(static_cast<T>(i));
    }
  }
  template <Described T>
  void make(const Holds&, T& into) {
    into = some<T>();
  }
  template <Described T>
  void make(const Holds&, std::vector<T>& into) {
    for (std::size_t i = chance_.below(4); i > 0; --i) into.push_back(some<T>());
  }

  std::vector<TopPoint> top(double length) {
    const auto height = [this] {
      double z = 0;
      make(tableOf<Wall>().at("top"), z);
      return z;
    };
    if (chance_.even()) {
      const double z = height();
      return {{0, z}, {length, z}};
    }
    std::vector<TopPoint> made = {{0, height()}};
    const std::size_t between = chance_.below(5);
    for (std::size_t i = 1; i <= between; ++i) {
      made.push_back({length * static_cast<double>(i) / static_cast<double>(between + 1), height()});
    }
    made.push_back({length, height()});
    return made;
  }

  Luck& chance_;
};

}  // namespace sillwright::job::test
