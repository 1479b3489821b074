#include "render/offscreen.h"

#include <dlfcn.h>
#include <epoxy/egl.h>
#include <epoxy/gl.h>

#include <array>
#include <stdexcept>
#include <vector>

#include "base/machine.h"

namespace sillwright::render {
namespace {

// What Mesa's software driver took for small pictures on two cores, and some more: with less it may fall over.
constexpr std::size_t kRoomForDriver = 768;  // MiB
constexpr unsigned kThreadsOfDriver = 8;

/// One way to a context: the display, and a small surface where the machine won't do without one.
struct Way {
  EGLDisplay display = EGL_NO_DISPLAY;
  EGLSurface surface = EGL_NO_SURFACE;
  EGLContext context = EGL_NO_CONTEXT;
};

void close(Way& way) {
  if (way.display == EGL_NO_DISPLAY) return;
  eglMakeCurrent(way.display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
  if (way.context != EGL_NO_CONTEXT) eglDestroyContext(way.display, way.context);
  if (way.surface != EGL_NO_SURFACE) eglDestroySurface(way.display, way.surface);
  // The display itself is left open: it is the process's, and another context on it may be alive.
  way = {};
}

/// epoxy ends the whole program where a library is missing; asked here first. What is found stays open: it is wanted.
bool canOpen(const char* library) {
  return ::dlopen(library, RTLD_LAZY | RTLD_LOCAL) != nullptr;
}

bool hasLibraries() {
  return canOpen("libEGL.so.1") && (canOpen("libOpenGL.so.0") || canOpen("libGL.so.1"));
}

/// The displays worth trying, best first: no screen at all, then each card by itself, then whatever is usual here.
std::vector<EGLDisplay> displays() {
  std::vector<EGLDisplay> found;
  if (!hasLibraries()) return found;
  const auto add = [&found](EGLDisplay display) {
    if (display != EGL_NO_DISPLAY) found.push_back(display);
  };
  if (epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_platform_base")) {
    if (epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_MESA_platform_surfaceless")) {
      add(eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr));
    }
    if (epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_platform_device") &&
        epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_device_enumeration")) {
      std::array<EGLDeviceEXT, 8> device{};
      EGLint devices = 0;
      if (eglQueryDevicesEXT(static_cast<EGLint>(device.size()), device.data(), &devices) == EGL_TRUE) {
        for (EGLint i = 0; i < devices; ++i) {
          add(eglGetPlatformDisplayEXT(EGL_PLATFORM_DEVICE_EXT, device[static_cast<std::size_t>(i)], nullptr));
        }
      }
    }
  }
  add(eglGetDisplay(EGL_DEFAULT_DISPLAY));
  return found;
}

/// A current 3.3 core context on this display, or an empty Way.
Way tryDisplay(EGLDisplay display) {
  Way way;
  EGLint major = 0;
  EGLint minor = 0;
  if (eglInitialize(display, &major, &minor) != EGL_TRUE) return way;
  way.display = display;

  const std::array<EGLint, 5> wanted{EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
  const std::array<EGLint, 7> version{
      EGL_CONTEXT_MAJOR_VERSION,           3,       EGL_CONTEXT_MINOR_VERSION, 3, EGL_CONTEXT_OPENGL_PROFILE_MASK,
      EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT, EGL_NONE};
  EGLConfig config = nullptr;
  EGLint configs = 0;
  if (eglBindAPI(EGL_OPENGL_API) == EGL_TRUE &&
      eglChooseConfig(display, wanted.data(), &config, 1, &configs) == EGL_TRUE && configs > 0) {
    way.context = eglCreateContext(display, config, EGL_NO_CONTEXT, version.data());
  }
  if (way.context != EGL_NO_CONTEXT && !epoxy_has_egl_extension(display, "EGL_KHR_surfaceless_context")) {
    const std::array<EGLint, 5> size{EGL_WIDTH, 16, EGL_HEIGHT, 16, EGL_NONE};
    way.surface = eglCreatePbufferSurface(display, config, size.data());
  }
  if (way.context == EGL_NO_CONTEXT || eglMakeCurrent(display, way.surface, way.surface, way.context) != EGL_TRUE ||
      epoxy_gl_version() < 33) {
    close(way);
  }
  return way;
}

}  // namespace

struct Offscreen::State {
  Way way;
};

Offscreen::Offscreen() : state_(std::make_unique<State>()) {
  base::needRoom(kRoomForDriver, kThreadsOfDriver);
  for (const EGLDisplay display : displays()) {
    state_->way = tryDisplay(display);
    if (state_->way.context != EGL_NO_CONTEXT) return;
  }
  throw std::runtime_error(
      "No OpenGL 3.3 could be started without a window: install a graphics driver or Mesa's software one "
      "(libgl1-mesa-dri, libegl1).");
}

Offscreen::~Offscreen() {
  close(state_->way);
}

}  // namespace sillwright::render
