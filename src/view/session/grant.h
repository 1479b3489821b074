/// Work that takes more than a moment, while the window goes on: what it is, how far it has come, and its end.
///
/// Work without OpenGL runs beside the window on values of its own, and what it answers is done to the viewer in the
/// viewer's thread. A picture is drawn by the frame (window/frame.h), once the words that announce it have been seen.
#pragma once

#include <atomic>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <future>
#include <memory>
#include <string>

#include "view/session/shown.h"

namespace sillwright::view {

struct App;

/// How far work has come; written beside the window, read by it.
struct Steps {
  std::atomic<std::size_t> done{0};
  std::atomic<std::size_t> of{0};  ///< 0: not known.
  std::atomic<bool> stop{false};   ///< The person wants no more of it.
};

/// What is left to be done in the viewer's own thread.
using Then = std::function<void(App&)>;

struct Work {
  std::string title;           ///< "Drawing the sheets".
  std::string unit;            ///< "pages"; empty: its steps have no name.
  bool holds_job = false;      ///< The job can't be changed until it is done.
  bool can_stop = false;       ///< Escape ends it.
  std::future<Then> there;     ///< Runs beside the window.
  PictureSize picture;         ///< Or a picture to be drawn,
  std::filesystem::path file;  ///< into this file.
  std::shared_ptr<Steps> steps = std::make_shared<Steps>();
  int seen = 0;  ///< In how many frames it has been announced.
};

/// Starts work beside the window. What `task` throws is told to the person.
[[nodiscard]] Work besideWindow(std::string title, std::function<Then(Steps&)> task);

/// Takes in what work beside the window has done. Once a frame, before the panels.
void followWork(App& app);
/// "Drawing the sheets: 12 of 29 pages".
[[nodiscard]] std::string wordsFor(const Work& work);

}  // namespace sillwright::view
