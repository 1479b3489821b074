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

#include "job/tables.h"

namespace sillwright::practice {

enum class Status : std::uint8_t {
  Published,       ///< Seen in a published source, which is named.
  CommonPractice,  ///< A custom of the trade; no source.
  Memory,          ///< Believed right, brought from memory; to be checked against the source named.
  SecondHand       ///< Seen in a text that quotes the source; both are named.
};

/// As Status, in practice files and in the JSON.
inline constexpr std::string_view kStatusWords[] = {"published", "common practice", "memory", "second-hand"};

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
};

/// One entry of ByClass: `wind` is the name of a class of the practice's wind table.
struct ClassFigure {
  std::string wind;
  Figure figure;
};

/// A figure that changes with the wind class. Empty: the practice names none.
struct ByClass {
  std::vector<ClassFigure> entries;
  /// The figure for a class, or nullptr where the practice names none for it.
  [[nodiscard]] const Figure* at(std::string_view wind) const;
};

// What figures are measured in, and the bounds that no sane figure leaves.

constexpr job::Holds figure(job::Holds value) {
  value.form = value.form == job::Form::Whole ? job::Form::WholeFigure : job::Form::Figure;
  return value;
}
/// As a figure's `unit` says it: "1" for a bare number.
constexpr std::string_view unitOf(const job::Holds& figure) {
  return figure.unit.empty() ? std::string_view("1") : figure.unit;
}

inline constexpr double kLongest = 100'000;
inline constexpr job::Holds kLength = figure(job::mm(0, kLongest));
inline constexpr job::Holds kPart = figure(job::mm(0.01, kLongest));  ///< A length that can't be nothing.
inline constexpr job::Holds kCount = figure(job::whole(0, 100));
inline constexpr job::Holds kPieces = figure(job::whole(1, 100));
inline constexpr job::Holds kRatio = figure(job::number(0, 1'000, ""));
inline constexpr job::Holds kShare = figure(job::number(0, 1, ""));
inline constexpr job::Holds kYesNo = figure(job::whole(0, 1));
inline constexpr job::Holds kAngle = figure(job::number(0, 89, "deg"));
inline constexpr job::Holds kArea = figure(job::number(0.001, 1'000, "m2"));
inline constexpr job::Holds kSpeed = figure(job::number(1, 200, "m/s"));
inline constexpr job::Holds kPressure = figure(job::number(0.001, 100, "kPa"));
inline constexpr job::Holds kHeatLoss = figure(job::number(0.1, 20, "W/m2K"));
inline constexpr job::Holds kStress = figure(job::number(0.01, 1'000'000, "N/mm2"));
inline constexpr job::Holds kDensity = figure(job::number(0.1, 20'000, "kg/m3"));
inline constexpr job::Holds kMass = figure(job::number(0.1, 1'000, "kg"));
inline constexpr job::Holds kYear = figure(job::whole(1'800, 2'100));
inline constexpr job::Holds kForce = figure(job::number(0, 1'000'000, "N"));
inline constexpr job::Holds kCentimetres = figure(job::number(0, 1'000, "cm"));
inline constexpr job::Holds kPerCentimetre = figure(job::number(0, 1, "1/cm"));

// What else the tables of a practice hold.

inline constexpr job::Holds kText = job::text(300);
inline constexpr job::Holds kTexts = job::textList(300, 1'000, 0).strictly();
inline constexpr job::Holds kLengths = job::mmList(0.01, kLongest, 1'000).strictly().required();
inline constexpr job::Holds kUpTo = job::mm(0.01, kLongest);
inline constexpr job::Holds kTables = job::tables(10'000);

/// The entry of a name, or nullptr.
template <class Named>
[[nodiscard]] const Named* findNamed(const std::vector<Named>& all, std::string_view name) {
  for (const Named& one : all) {
    if (one.name == name) return &one;
  }
  return nullptr;
}

/// "NCC Housing Provisions 7.5.6(a), 2022" — the source as shown to people, with the status where it isn't published.
[[nodiscard]] std::string cite(const Figure& figure);

/// "published", "second-hand" and so on: the words of the JSON.
[[nodiscard]] const char* toWord(Status status);

// Lengths that are written in inches, read.

inline constexpr double kInch = 25.4;         ///< mm, exact.
inline constexpr double kPound = 0.45359237;  ///< kg, exact.

/// Reads what words::length writes without " mm", mm: "1530", "60 1/4 in", "-1/16 in"; and "5 ft 0 1/4 in". Anything
/// else: empty.
[[nodiscard]] std::optional<double> readLength(std::string_view words);

}  // namespace sillwright::practice

template <>
inline constexpr bool sillwright::job::kMayLack<sillwright::practice::Bands> = true;
template <>
inline constexpr bool sillwright::job::kMayLack<sillwright::practice::ByClass> = true;
