/// One figure of the trade, with what a person needs to trust or doubt it.
///
/// Every limit, allowance and stock size of a practice is a Figure: a value, its unit, where it comes from and how
/// well that is known. A rule that a practice does not name is an empty Rule; the check that would need it then
/// says "not judged: the practice names no value". Nothing in the program invents a figure.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sillwright::practice {

enum class Status : std::uint8_t {
  Published,       ///< Seen in a published source, which is named.
  CommonPractice,  ///< A custom of the trade; no source.
  Memory           ///< Believed right, brought from memory; to be checked against the source named.
};

/// As Status, in practice files and in the JSON.
inline constexpr std::string_view kStatusWords[] = {"published", "common practice", "memory"};

struct Figure {
  double value = 0;
  std::string unit;     ///< "mm", "kPa", "deg", "1" for a bare number or ratio, …
  std::string source;   ///< Title of the standard, guide or table; "common practice, no source" where there is none.
  std::string clause;   ///< Clause or table, may be empty.
  std::string edition;  ///< May be empty.
  Status status = Status::CommonPractice;
  std::string note;  ///< One sentence on how it is meant, may be empty.
  bool operator==(const Figure&) const = default;
};

using Rule = std::optional<Figure>;

/// A figure that changes with a size (a width, a height): each band holds up to and including `up_to` mm.
struct Band {
  double up_to = 0;
  Figure figure;
  bool operator==(const Band&) const = default;
};

/// Bands in rising order. Empty: the practice names none. A figure that holds for every size is one band whose `up_to`
/// is infinite.
struct Bands {
  std::vector<Band> bands;
  /// The figure for a size, or nullptr where no band reaches that far.
  [[nodiscard]] const Figure* at(double size) const;
  bool operator==(const Bands&) const = default;
};

/// What is drawn and cut where nothing else is said, and the least that a check holds it to. `usual` is never below
/// `least`.
struct Measure {
  Figure usual;
  Rule least;
  bool operator==(const Measure&) const = default;
};

/// One entry of ByClass: `wind` is the name of a class of the practice's wind table.
struct ClassFigure {
  std::string wind;
  Figure figure;
  bool operator==(const ClassFigure&) const = default;
};

/// A figure that changes with the wind class. Empty: the practice names none.
struct ByClass {
  std::vector<ClassFigure> entries;
  /// The figure for a class, or nullptr where the practice names none for it.
  [[nodiscard]] const Figure* at(std::string_view wind) const;
  bool operator==(const ByClass&) const = default;
};

/// "NCC Housing Provisions 7.5.6(a), 2022" — the source as shown to people, with the status where it isn't published.
[[nodiscard]] std::string cite(const Figure& figure);

/// "published", "common practice", "memory": the words of the JSON.
[[nodiscard]] const char* toWord(Status status);

}  // namespace sillwright::practice
