/// An OpenGL context without a window (EGL, surfaceless), and pictures on disk.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <vector>

namespace sillwright::render {

/// Makes a 3.3 core context current for its lifetime. Throws std::runtime_error with one sentence where the machine
/// has no OpenGL.
class Offscreen {
 public:
  Offscreen();
  ~Offscreen();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

class Target;

struct Image {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> rgb;  ///< Top row first.
};

/// Writes as base::writeFile does; throws std::runtime_error in one sentence.
void writePng(const std::filesystem::path& path, const Image& image);

}  // namespace sillwright::render
