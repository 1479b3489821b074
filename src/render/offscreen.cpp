#include "render/offscreen.h"

#include <dlfcn.h>
#include <epoxy/egl.h>
#include <epoxy/gl.h>
#include <png.h>
#include <algorithm>
#include <array>
#include <stdexcept>

#include "base/error.h"
#include "base/write_file.h"
#include "render/gl.h"
#include "render/renderer.h"

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

void close(Way& way) {  // may be called for a half opened one
  if (way.display == EGL_NO_DISPLAY) return;
  eglMakeCurrent(way.display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);  // a current one would outlive its end
  if (way.context != EGL_NO_CONTEXT) eglDestroyContext(way.display, way.context);
  if (way.surface != EGL_NO_SURFACE) eglDestroySurface(way.display, way.surface);
  // The display itself is left open: it is the process's, and another context on it may be alive.
  way = {};
}

/// epoxy ends the whole program where a library is missing; asked here first. What is found stays open: it is wanted.
bool canOpen(const char* library) { return ::dlopen(library, RTLD_LAZY | RTLD_LOCAL) != nullptr; }

bool hasLibraries() { return canOpen("libEGL.so.1") && (canOpen("libOpenGL.so.0") || canOpen("libGL.so.1")); }

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
      std::array<EGLDeviceEXT, 8> device{};  // the first eight of them are tried
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
  if (eglInitialize(display, &major, &minor) != EGL_TRUE) return way;  // its driver isn't there
  way.display = display;                                               // from here on close() has something to do

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
    const std::array<EGLint, 5> size{EGL_WIDTH, 16, EGL_HEIGHT, 16, EGL_NONE};  // nothing is drawn into it
    way.surface = eglCreatePbufferSurface(display, config, size.data());
  }
  if (way.context == EGL_NO_CONTEXT || eglMakeCurrent(display, way.surface, way.surface, way.context) != EGL_TRUE ||
      epoxy_gl_version() < 33) {
    close(way);
  }
  return way;
}

/// By libpng's own short way: no jumps over our destructors.
std::vector<char> encode(const Image& picture) {
  png_image png{};
  png.version = PNG_IMAGE_VERSION;
  png.width = static_cast<png_uint_32>(picture.width);
  png.height = static_cast<png_uint_32>(picture.height);
  png.format = PNG_FORMAT_RGB;
  png.flags = PNG_IMAGE_FLAG_FAST;  // A third of the time for a tenth more bytes.
  png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(png);
  std::vector<char> bytes(size);
  const int written = png_image_write_to_memory(&png, bytes.data(), &size, 0, picture.rgb.data(), 0, nullptr);
  png_image_free(&png);
  if (written == 0) {
    throw std::runtime_error(std::string("The picture could not be encoded: ") + png.message + ".");
  }
  bytes.resize(size);
  return bytes;
}

void checkWhole(const char* which) {  // of the framebuffer that is bound
  if (glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE) {
    throw std::runtime_error(std::string("The graphics driver could not make the ") + which +
                             " picture buffer; a smaller picture may work.");
  }
}

}  // namespace

struct Offscreen::State {
  Way way;
};

Offscreen::Offscreen() : state_(std::make_unique<State>()) {
  base::needRoom(kRoomForDriver, kThreadsOfDriver);  // refused later, a driver ends the program or waits for ever
  for (const EGLDisplay display : displays()) {
    state_->way = tryDisplay(display);
    if (state_->way.context != EGL_NO_CONTEXT) return;
  }
  throw std::runtime_error(
      "No OpenGL 3.3 could be started without a window: install a graphics driver or Mesa's software one "
      "(libgl1-mesa-dri, libegl1).");
}

Offscreen::~Offscreen() { close(state_->way); }

void writePng(const std::filesystem::path& path, const Image& image) {
  const std::size_t pixels =
      static_cast<std::size_t>(std::max(image.width, 0)) * static_cast<std::size_t>(std::max(image.height, 0));
  if (pixels == 0 || image.rgb.size() != pixels * 3) {
    throw std::runtime_error("The picture has no pixels, or not as many as its size says.");
  }
  const std::vector<char> bytes = encode(image);

  const base::Outcome outcome = base::writeFile(path, {bytes.data(), bytes.size()});
  if (!outcome.written) {
    throw std::runtime_error("The picture could not be written to " + path.string() + ": " + outcome.reason + ".");
  }
}

/// The picture is drawn into renderbuffers and copied into the texture: with one sample straight into that, if wanted.
struct Target::State {
  int width = 0;
  int height = 0;
  int samples = 1;
  Framebuffer drawing;
  Framebuffer resolved;
  Renderbuffer colour;
  Renderbuffer depth;
  Texture texture;
  bool straight = false;
};

Target::Target(int width, int height, int samples) : state_(std::make_unique<State>()) {
  resize(width, height, samples);
}

Target::~Target() = default;

void Target::resize(int width, int height, int samples) {
  GLint most_samples = 1;
  GLint most_size = 0;
  glGetIntegerv(GL_MAX_SAMPLES, &most_samples);
  glGetIntegerv(GL_MAX_RENDERBUFFER_SIZE, &most_size);
  width = std::max(width, 1);  // a buffer without pixels is never complete
  height = std::max(height, 1);
  samples = std::clamp(samples, 1, std::max(1, static_cast<int>(most_samples)));
  if (width > most_size || height > most_size) {
    throw std::runtime_error("A picture of " + std::to_string(width) + " × " + std::to_string(height) +
                             " is larger than this graphics driver draws (" + std::to_string(most_size) + " at most).");
  }
  State& s = *state_;
  if (s.texture.id() != 0 && s.width == width && s.height == height && s.samples == samples) return;
  s = State{};  // the old buffers go before new ones come
  s.width = width;
  s.height = height;
  s.samples = samples;

  // The resolved picture is a texture, which panels show; what is drawn goes into buffers of its own.
  s.texture = make<Texture>(glGenTextures);
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, s.texture.id());
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  glBindTexture(GL_TEXTURE_2D, 0);

  s.depth = make<Renderbuffer>(glGenRenderbuffers);  // no samples of its own where one is wanted: the texture has none
  glBindRenderbuffer(GL_RENDERBUFFER, s.depth.id());
  glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples > 1 ? samples : 0, GL_DEPTH24_STENCIL8, width, height);

  s.resolved = make<Framebuffer>(glGenFramebuffers);
  glBindFramebuffer(GL_FRAMEBUFFER, s.resolved.id());
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, s.texture.id(), 0);
  if (samples == 1) {  // begin(straight) draws into it
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_STENCIL_ATTACHMENT, GL_RENDERBUFFER, s.depth.id());
  }
  checkWhole("resolved");
  s.colour = make<Renderbuffer>(glGenRenderbuffers);
  glBindRenderbuffer(GL_RENDERBUFFER, s.colour.id());
  glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples > 1 ? samples : 0, GL_RGBA8, width, height);
  s.drawing = make<Framebuffer>(glGenFramebuffers);
  glBindFramebuffer(GL_FRAMEBUFFER, s.drawing.id());
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, s.colour.id());
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_STENCIL_ATTACHMENT, GL_RENDERBUFFER, s.depth.id());
  checkWhole("multisampled");
}

int Target::width() const { return state_->width; }
int Target::height() const { return state_->height; }
int Target::samples() const { return state_->samples; }

void Target::begin(bool straight) {
  state_->straight = straight && state_->samples == 1;
  glBindFramebuffer(GL_FRAMEBUFFER, state_->straight ? state_->resolved.id() : state_->drawing.id());
  glViewport(0, 0, state_->width, state_->height);
}

void Target::resolve(glm::ivec4 box) {
  const State& s = *state_;
  if (!s.straight) {
    glBindFramebuffer(GL_READ_FRAMEBUFFER, s.drawing.id());
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, s.resolved.id());
    glBlitFramebuffer(box.x, box.y, box.z, box.w, box.x, box.y, box.z, box.w, GL_COLOR_BUFFER_BIT, GL_NEAREST);
  }
  glBindFramebuffer(GL_FRAMEBUFFER, s.resolved.id());
  glViewport(0, 0, s.width, s.height);
}

unsigned Target::texture() const { return state_->texture.id(); }

void Target::blitToWindow(int window_width, int window_height) {
  const State& s = *state_;
  glBindFramebuffer(GL_READ_FRAMEBUFFER, s.resolved.id());
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, 0);
  const bool same = window_width == s.width && window_height == s.height;
  glBlitFramebuffer(0, 0, s.width, s.height, 0, 0, window_width, window_height, GL_COLOR_BUFFER_BIT,
                    same ? GL_NEAREST : GL_LINEAR);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
}

std::vector<std::uint8_t> Target::read() {
  const State& s = *state_;
  const std::size_t row = static_cast<std::size_t>(s.width) * 3;
  const std::size_t rows = static_cast<std::size_t>(s.height);
  std::vector<std::uint8_t> upside_down(row * rows);
  glBindFramebuffer(GL_READ_FRAMEBUFFER, s.resolved.id());
  glPixelStorei(GL_PACK_ALIGNMENT, 1);  // rows of 3 bytes a pixel have no padding
  glReadPixels(0, 0, s.width, s.height, GL_RGB, GL_UNSIGNED_BYTE, upside_down.data());
  glPixelStorei(GL_PACK_ALIGNMENT, 4);  // OpenGL's own, which others count on
  std::vector<std::uint8_t> rgb(upside_down.size());
  for (std::size_t y = 0; y < rows; ++y) {
    std::copy_n(upside_down.begin() + static_cast<std::ptrdiff_t>((rows - 1 - y) * row), row,
                rgb.begin() + static_cast<std::ptrdiff_t>(y * row));
  }
  return rgb;
}

}  // namespace sillwright::render
