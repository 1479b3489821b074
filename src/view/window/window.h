/// The viewer in a window of its own.
#pragma once

#include <filesystem>
#include <functional>

namespace sillwright::view {

struct App;

struct WindowOptions {
  std::filesystem::path job;
  std::filesystem::path assets;  ///< As assetsFolder().
  bool remember = true;          ///< Whether the window's place is read and kept.
  /// Called after each picture that was drawn, with the number of pictures so far.
  std::function<void(const App&, int pictures)> drawn;
};

/// Opens a window, and runs until it is closed. Answers the exit status: 0. Throws std::runtime_error with one
/// sentence where the machine has no display or no OpenGL 3.3.
int runWindow(const WindowOptions& options);

}  // namespace sillwright::view
