/// What verbs share: reading what they are asked about, writing what is wanted, and saying so where that can't be.
#pragma once

#include <filesystem>
#include <functional>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "base/error.h"
#include "base/words.h"
#include "base/write_file.h"
#include "cli/verbs.h"
#include "document/document.h"
#include "takeoff/table.h"

namespace sillwright::cli {

/// Ends a verb with kUnreadable: it was said what is wrong.
struct Refused {};

/// What `work` answers; kUnreadable where it refuses.
[[nodiscard]] int answerOf(const std::function<int()>& work);

/// Errors of a person's file on standard error, a line each.
void complain(const std::vector<base::Error>& errors);
/// One sentence on standard error, after the program's name.
void tell(std::string_view sentence);

/// The same, and no way back.
[[noreturn]] void refuse(const std::vector<base::Error>& errors);
[[noreturn]] void refuse(std::string_view sentence);

/// What was read. Refuses where it couldn't be.
template <class T>
[[nodiscard]] T taken(base::Result<T> read) {
  if (!read.ok()) refuse(read.errors);
  return std::move(*read.value);
}

/// Writes the whole of the text. Refuses where that can't be; nothing is left half.
void writeFile(const std::filesystem::path& path, std::string_view text);
void writeFile(const std::filesystem::path& path, const std::function<void(const base::Sink&)>& say);

/// Writes the tables of a document as a workbook, likewise.
void writeBook(const std::filesystem::path& path, std::span<const takeoff::Table> tables,
               const document::Document& document);

/// Prints the text on standard output, after what was printed there before. Refuses where it could not all be written.
void printAll(std::string_view text);
/// The same of words for people: what could move the terminal's cursor or turn its lines stands there as escapes.
void printWords(std::string_view text);

/// The job with what follows from it. Refuses where it can't be read.
[[nodiscard]] document::Document loaded(const std::filesystem::path& job, const How& how, document::Depth depth);

/// Index of the ending of the file of an option among those that are allowed, capitals aside. Refuses others.
std::size_t endingOf(const std::filesystem::path& out, std::initializer_list<std::string_view> allowed,
                     const char* option = "--out");

/// The index of the one of that name; empty: none is named. Refuses where there is none. `what`: "opening".
template <class Named>
[[nodiscard]] std::optional<std::size_t> chosen(const std::vector<Named>& all, const std::string& name,
                                                const std::string& what) {
  if (name.empty()) return std::nullopt;
  const std::int32_t found = document::indexOf(all, name);
  if (found < 0)
    refuse("the job has no " + what + " '" + name + "'; it has " + base::joined(all, ", ", &Named::name) + ".");
  return static_cast<std::size_t>(found);
}

/// How far a verb is that takes more than a second: one line on a terminal, written every second, and gone with this.
class Progress {
 public:
  Progress();
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  /// What is done now; empty: nothing is told any more, since something else is printed.
  static void tell(std::string_view words);

 private:
  std::jthread ticking_;
};

/// Runs once, and again whenever one of the files changes, until the program is ended or its output is closed.
int watched(const std::vector<std::filesystem::path>& files, const std::function<int()>& run);

/// The verdicts' marks in colours where standard output is a terminal that has them and NO_COLOR is not set.
[[nodiscard]] std::string coloured(std::string text);

/// Width of the terminal, as far as text is read with ease; 72 where the output is not one, so that a file of it can be
/// read anywhere.
[[nodiscard]] int columnsOfTerminal(int most = 100);

}  // namespace sillwright::cli
