/// Inside the room: the typefaces of the sheets, found on the machine by file.
///
/// Inter, and DejaVu Sans for what it lacks; where the machine has neither, whatever it puts in their place. Only files
/// are asked of fontconfig, so that the face that is asked for is the face that is embedded.
#pragma once

#include <cairo.h>

#include <array>
#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sillwright::sheet {

enum class Weight { Regular, Bold };

/// Height of a capital as a share of the type's size, of Inter (and DejaVu Sans within a hundredth).
inline constexpr double kCapitals = 0.727;

/// A stretch of text that one face can draw.
struct FontRun {
  cairo_font_face_t* face = nullptr;
  std::string text;
};

class Fonts {
 public:
  Fonts();

  /// Splits a text by the faces that have its letters: the first that has one draws it; what none has stays with the
  /// first face.
  [[nodiscard]] std::vector<FontRun> runs(std::string_view text, Weight weight);

 private:
  struct FaceDeleter {
    void operator()(cairo_font_face_t* face) const { cairo_font_face_destroy(face); }
  };
  using Face = std::unique_ptr<cairo_font_face_t, FaceDeleter>;

  [[nodiscard]] bool has(std::size_t face, const std::string& letter);

  std::array<Face, 4> face_;  // regular, bold, then the same of the stand-in
  std::map<std::pair<std::size_t, std::string>, bool> known_;
};

}  // namespace sillwright::sheet
