#include "view/window/window.h"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>

#include "document/settings.h"
#include "view/window/frame.h"

namespace sillwright::view {
namespace {

/// Seconds after which a resting viewer looks whether another program has changed the job's file.
constexpr double kLookAtDisk = 2.0;
/// Seconds after which it looks how far work beside it has come.
constexpr double kLookAtWork = 0.05;
/// Between pictures where only drops fall or cards play: a machine without a graphics card has other work.
constexpr double kBetweenDrops = 0.11;

/// GLFW, from its start to its end.
class Library {
 public:
  Library() {
    if (glfwInit() != GLFW_TRUE) throw std::runtime_error("no display: " + lastWords());
  }
  ~Library() { glfwTerminate(); }
  Library(const Library&) = delete;
  Library& operator=(const Library&) = delete;

  static std::string lastWords() {
    const char* words = nullptr;
    glfwGetError(&words);
    return words != nullptr ? words : "the window library doesn't say why";
  }
};

using WindowHandle = std::unique_ptr<GLFWwindow, decltype([](GLFWwindow* window) { glfwDestroyWindow(window); })>;

/// What the callbacks reach through the window.
struct Inlet {
  InputQueue* queue = nullptr;
  App* app = nullptr;
  float pixels_per_unit = 1.0F;  ///< Framebuffer pixels per unit of the window's own coordinates.
};

Inlet& inletOf(GLFWwindow* window) { return *static_cast<Inlet*>(glfwGetWindowUserPointer(window)); }

Modifiers modifiersOf(int bits) {
  return {(bits & GLFW_MOD_CONTROL) != 0, (bits & GLFW_MOD_SHIFT) != 0, (bits & GLFW_MOD_ALT) != 0,
          (bits & GLFW_MOD_SUPER) != 0};
}

static_assert(static_cast<int>(Key::Z) == GLFW_KEY_Z && static_cast<int>(Key::PageDown) == GLFW_KEY_PAGE_DOWN &&
              static_cast<int>(Key::KeypadEnter) == GLFW_KEY_KP_ENTER &&
              static_cast<int>(Key::Super) == GLFW_KEY_LEFT_SUPER);

/// On a US keyboard: theirs have our numbers. What stands at the right or on the keypad too is the same key.
std::optional<Key> physicalKey(int theirs) {
  if (theirs < 0) return std::nullopt;                                                       // unknown
  if (theirs >= GLFW_KEY_RIGHT_SHIFT) theirs += GLFW_KEY_LEFT_SHIFT - GLFW_KEY_RIGHT_SHIFT;  // also Ctrl, Alt, Super
  if (theirs >= GLFW_KEY_KP_0 && theirs <= GLFW_KEY_KP_9) theirs += GLFW_KEY_0 - GLFW_KEY_KP_0;
  if (theirs == GLFW_KEY_KP_SUBTRACT) theirs = GLFW_KEY_MINUS;
  if (theirs == GLFW_KEY_KP_ADD) theirs = GLFW_KEY_EQUAL;
  return static_cast<Key>(theirs);
}

void onMove(GLFWwindow* window, double x, double y) {
  const Inlet& inlet = inletOf(window);
  const auto scale = static_cast<double>(inlet.pixels_per_unit);
  inlet.queue->push(Moved{static_cast<float>(x * scale), static_cast<float>(y * scale)});
}

void onButton(GLFWwindow* window, int button, int action, int modifiers) {
  if (button > GLFW_MOUSE_BUTTON_MIDDLE) return;  // left, right, middle: ours have their numbers
  inletOf(window).queue->push(ButtonChanged{static_cast<Button>(button), action == GLFW_PRESS, modifiersOf(modifiers)});
}

void onKey(GLFWwindow* window, int key, int scancode, int action, int modifiers) {
  const char* const mark = glfwGetKeyName(key, scancode);  // null where the key types nothing
  const auto ours = keyMarked(physicalKey(key), mark != nullptr ? mark : "");
  if (!ours) return;
  if (action == GLFW_REPEAT && *ours == Key::F2) return;  // held down, it is down once
  InputQueue& queue = *inletOf(window).queue;
  // A held key goes up and down again for each repetition, so that a repetition counts as "went down".
  if (action == GLFW_REPEAT) queue.push(KeyChanged{*ours, false, modifiersOf(modifiers)});
  queue.push(KeyChanged{*ours, action != GLFW_RELEASE, modifiersOf(modifiers)});
}

/// How much of a window lies on a screen, square pixels; 0 where that is too little to get hold of it.
long seenOn(GLFWmonitor* screen, const document::WindowPlace& place) {
  int x = 0, y = 0, width = 0, height = 0;
  glfwGetMonitorWorkarea(screen, &x, &y, &width, &height);
  const int seen_width = std::min(place.x + place.width, x + width) - std::max(place.x, x);
  const int seen_height = std::min(place.y + place.height, y + height) - std::max(place.y, y);
  return seen_width >= 120 && seen_height >= 120 ? static_cast<long>(seen_width) * seen_height : 0;
}

/// The screen that most of a window lies on; null: it is on none that is there now.
GLFWmonitor* screenUnder(const document::WindowPlace& place) {
  int count = 0;
  GLFWmonitor** all = glfwGetMonitors(&count);
  GLFWmonitor* most = nullptr;
  for (int i = 0; i < count; ++i) {
    if (seenOn(all[i], place) > (most != nullptr ? seenOn(most, place) : 0)) most = all[i];
  }
  return most;
}

WindowHandle makeWindow(const document::WindowPlace& place, bool remembered, const std::string& title) {
  glfwDefaultWindowHints();
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
  glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
  glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);  // macOS gives a core profile only so
  glfwWindowHint(GLFW_DEPTH_BITS, 0);                     // the drawing has its own buffers
  glfwWindowHint(GLFW_STENCIL_BITS, 0);
  glfwWindowHint(GLFW_MAXIMIZED, place.whole_screen ? GLFW_TRUE : GLFW_FALSE);
  glfwWindowHint(GLFW_VISIBLE, GLFW_FALSE);                                    // until it stands at its place
  glfwWindowHint(GLFW_SCALE_TO_MONITOR, remembered ? GLFW_FALSE : GLFW_TRUE);  // a remembered size is in pixels already
  WindowHandle window{glfwCreateWindow(place.width, place.height, title.c_str(), nullptr, nullptr)};
  if (!window) throw std::runtime_error("no window with OpenGL 3.3: " + Library::lastWords());
  if (remembered && !place.whole_screen && screenUnder(place) != nullptr)  // its screen may be gone since
    glfwSetWindowPos(window.get(), place.x, place.y);
  return window;
}

void connect(GLFWwindow* window, Inlet& inlet) {
  const auto on_wheel = [](GLFWwindow* on, double x, double y) {
    inletOf(on).queue->push(Wheeled{static_cast<float>(x), static_cast<float>(y)});
  };
  const auto on_drop = [](GLFWwindow* on, int count, const char** files) {
    if (count > 0) inletOf(on).queue->push(Dropped{files[0]});  // one job is open at a time
  };
  glfwSetWindowUserPointer(window, &inlet);  // before the callbacks, which ask for it
  glfwSetCursorPosCallback(window, onMove);
  glfwSetMouseButtonCallback(window, onButton);
  glfwSetScrollCallback(window, on_wheel);
  glfwSetKeyCallback(window, onKey);
  glfwSetCharCallback(window, [](GLFWwindow* on, unsigned character) { inletOf(on).queue->push(Typed{character}); });
  glfwSetDropCallback(window, on_drop);
  glfwSetWindowFocusCallback(
      window, [](GLFWwindow* on, int focused) { inletOf(on).queue->push(Focused{focused == GLFW_TRUE}); });
  // The window's own picture is gone: the next one is drawn.
  glfwSetWindowRefreshCallback(window, [](GLFWwindow* on) { disturb(*inletOf(on).app); });
  glfwSetFramebufferSizeCallback(window, [](GLFWwindow* on, int, int) { disturb(*inletOf(on).app); });
  glfwSetWindowContentScaleCallback(window, [](GLFWwindow* on, float, float) { disturb(*inletOf(on).app); });
}

Screen screenOf(GLFWwindow* window, Inlet& inlet) {
  Screen screen;
  glfwGetFramebufferSize(window, &screen.width, &screen.height);
  int unit_width = 0;
  glfwGetWindowSize(window, &unit_width, nullptr);
  if (unit_width > 0) inlet.pixels_per_unit = static_cast<float>(screen.width) / static_cast<float>(unit_width);
  glfwGetWindowContentScale(window, &screen.scale, nullptr);
  screen.scale = std::clamp(screen.scale, 0.5F, 4.0F);  // text stays readable whatever the desktop tells
  return screen;
}

/// Where the window is; a maximised one, and one over all of its screen, keeps the place it had before.
document::WindowPlace placeNow(GLFWwindow* window, document::WindowPlace place) {
  if (glfwGetWindowMonitor(window) != nullptr) return place;  // over all of the screen
  place.whole_screen = glfwGetWindowAttrib(window, GLFW_MAXIMIZED) == GLFW_TRUE;
  if (!place.whole_screen) {
    glfwGetWindowPos(window, &place.x, &place.y);
    glfwGetWindowSize(window, &place.width, &place.height);
  }
  return place;
}

/// Over all of the screen that it lies on, or back to the place it had.
void followFullScreen(GLFWwindow* window, bool wanted, document::WindowPlace& before) {
  if ((glfwGetWindowMonitor(window) != nullptr) == wanted) return;
  before = placeNow(window, before);  // where it goes back to
  GLFWmonitor* screen = wanted ? screenUnder(before) : nullptr;
  if (wanted && screen == nullptr) screen = glfwGetPrimaryMonitor();  // the window may lie beside all of them
  const GLFWvidmode* mode = screen != nullptr ? glfwGetVideoMode(screen) : nullptr;
  if (wanted && mode == nullptr) return;  // no screen tells its size
  if (mode == nullptr)
    return glfwSetWindowMonitor(window, nullptr, before.x, before.y, before.width, before.height, GLFW_DONT_CARE);
  glfwSetWindowMonitor(window, screen, 0, 0, mode->width, mode->height, mode->refreshRate);
}

std::string titleOf(const App& app) {
  const std::string name =
      app.document && !app.document->job.title.empty() ? app.document->job.title : app.file.path.filename().string();
  const bool unsaved = app.document && app.typing.anyNotInFile(app.document->job);
  return (unsaved ? "* " : "") + name + " - Sillwright";
}

/// Draws whenever there is something to draw, and sleeps otherwise.
void run(GLFWwindow* window, Inlet& inlet, App& app, const WindowOptions& options, document::WindowPlace& place) {
  Stage stage;
  int pictures = 0;
  std::string titled = titleOf(app);
  auto last = std::chrono::steady_clock::now();
  while (!app.closing) {
    if (glfwWindowShouldClose(window) == GLFW_TRUE) {  // as the key: asks first where something would be lost
      glfwSetWindowShouldClose(window, GLFW_FALSE);
      grant(app, Close{});
      disturb(app);
      if (app.closing) break;  // without another picture
    }
    if (isOnlyWorking(app, stage)) {
      glfwWaitEventsTimeout(kLookAtWork);
    } else if (isUnsettled(app, stage)) {
      glfwPollEvents();
    } else if (wantsFrame(app, stage)) {
      glfwWaitEventsTimeout(kBetweenDrops);
    } else {
      glfwWaitEventsTimeout(kLookAtDisk);
      checkDisk(app);
      if (!wantsFrame(app, stage)) keepPicture(app);  // nobody waits now
    }
    const auto now = std::chrono::steady_clock::now();
    const float seconds = std::min(std::chrono::duration<float>(now - last).count(), 0.1F);  // no leap after a pause
    if (!wantsFrame(app, stage)) continue;
    last = now;
    followFullScreen(window, app.shown.full_screen, place);
    const Screen screen = screenOf(window, inlet);
    const bool away = glfwGetWindowAttrib(window, GLFW_ICONIFIED) == GLFW_TRUE ||
                      glfwGetWindowAttrib(window, GLFW_VISIBLE) == GLFW_FALSE;
    if (away || screen.width <= 0 || screen.height <= 0) {  // nothing to draw on until it comes back
      keepInTime(app, true);
      glfwWaitEvents();  // for as long as it is away
      continue;
    }
    frame(app, stage, screen, seconds);
    stage.target().blitToWindow(screen.width, screen.height);
    glfwSwapBuffers(window);
    if (std::string title = titleOf(app); title != titled) {
      glfwSetWindowTitle(window, title.c_str());
      titled = std::move(title);
    }
    if (options.drawn) options.drawn(app, ++pictures);
    keepInTime(app, !isUnsettled(app, stage));
  }
  keepPicture(app);  // the last chance before its context is gone
}

}  // namespace

int runWindow(const WindowOptions& options) {
  const std::filesystem::path place_file = options.remember ? document::windowPlaceFile() : std::filesystem::path{};
  const std::optional<document::WindowPlace> remembered = document::readWindowPlace(place_file);
  document::WindowPlace place = remembered.value_or(document::WindowPlace{});

  App app = open(options.job, options.assets, document::recoveryFolder());
  app.file.pictures = document::ownFolder("XDG_CACHE_HOME", ".cache", "pictures");
  app.shown.look.dark = place.dark;
  app.shown.text_scale = std::clamp(static_cast<float>(place.text_scale), kLeastTextScale, kMostTextScale);
  if (options.remember && !remembered) app.shown.tour = 0;  // the first start on this machine

  const Library library;  // its end comes after the window's
  const WindowHandle window = makeWindow(place, remembered.has_value(), titleOf(app));
  Inlet inlet{&app.input, &app, 1.0F};
  connect(window.get(), inlet);
  glfwMakeContextCurrent(window.get());
  glfwSwapInterval(1);  // pictures follow the screen's own pace
  glfwShowWindow(window.get());
  run(window.get(), inlet, app, options, place);

  place = placeNow(window.get(), place);  // while the window still is
  place.dark = app.shown.look.dark;
  place.text_scale = static_cast<double>(app.shown.text_scale);
  const std::string refused = document::writeWindowPlace(place_file, place);
  if (!refused.empty()) std::fprintf(stderr, "sillwright: %s\n", refused.c_str());
  return 0;
}

}  // namespace sillwright::view
