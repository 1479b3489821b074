/// What a person types: the field in hand, and what of the job isn't in its file.
///
/// Typed values change the document in memory only. Readings are told apart from the file's until the job is saved or
/// read again; an opening is known again by its name.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "job/job.h"
#include "job/keys.h"
#include "view/values/dimension.h"
#include "view/values/readings.h"
#include "view/values/screen_place.h"

namespace sillwright::view {

/// A reading of an opening.
struct ReadingOf {
  std::size_t opening = 0;
  TapeReading reading = TapeReading::WidthBottom;
  bool operator==(const ReadingOf&) const = default;
};
/// A path: of a job to open, of a new one, or of this one under another name.
enum class PathUse : std::uint8_t { Open, Begin, SaveAs };

struct Shown;
struct PictureSize;
/// What a field sets; of what is shown a text, or a side of a picture in pixels.
using FieldOf = std::variant<ReadingOf, Dimension, PathUse, std::string Shown::*, int PictureSize::*, job::KeyPlace>;

struct Typing {
  struct Field {
    FieldOf what;
    std::string text;
  };
  std::optional<Field> field;    ///< With the text that hasn't been taken in yet.
  std::optional<Field> refusal;  ///< Why the last text was not taken in.
  job::Job in_file;              ///< As it was read or saved last.

  /// An opening of the job as the file has it; null where the file has none of its name.
  [[nodiscard]] const job::Opening* inFile(const job::Job& job, std::size_t opening) const;
  /// Whether a reading of an opening is unlike the file's.
  [[nodiscard]] bool isTyped(const job::Job& job, std::size_t opening, TapeReading reading) const;
  /// Whether anything of the job is.
  [[nodiscard]] bool anyNotInFile(const job::Job& job) const { return !(job == in_file); }
};

// The keyboard's way through what can be picked: the items of the last frame, and which of them the keys belong to.

/// One thing that could be picked in a frame, for the keyboard and for tests.
struct Item {
  ImGuiID id = 0;
  std::string name;
  ImVec2 low;
  ImVec2 high;
  std::optional<FieldOf> field;  ///< What it sets, where it is a field to type in.
};

/// Which item the keyboard is on.
struct Focus {
  ImGuiID at = 0;           ///< 0: none; keys then belong to the drawing.
  bool activate = false;    ///< Enter or Space went down in this frame.
  bool arrived = false;     ///< Moved in this frame: the item brings itself into sight.
  std::vector<Item> items;  ///< Of the last frame, in the order of Tab.
  std::vector<Item> now;    ///< Gathered in this frame.

  /// Moves to the next item, or the one before; round the end to none.
  void step(bool backwards);
  /// Ends a frame's gathering. A focus whose item is gone is dropped.
  void endFrame();
};

}  // namespace sillwright::view
