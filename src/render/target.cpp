#include <algorithm>
#include <stdexcept>

#include "render/gl.h"
#include "render/renderer.h"

namespace sillwright::render {

/// With one sample the picture is drawn straight into the resolved texture; with more, into renderbuffers beside it.
struct Target::State {
  int width = 0;
  int height = 0;
  int samples = 1;
  Framebuffer drawing;
  Framebuffer resolved;
  Renderbuffer colour;
  Renderbuffer depth;
  Texture texture;

  [[nodiscard]] GLuint drawn() const { return samples > 1 ? drawing.id() : resolved.id(); }
};

namespace {

void checkWhole(const char* which) {
  if (glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE) {
    throw std::runtime_error(std::string("The graphics driver could not make the ") + which +
                             " picture buffer; a smaller picture may work.");
  }
}

}  // namespace

Target::Target(int width, int height, int samples) : state_(std::make_unique<State>()) {
  resize(width, height, samples);
}

Target::~Target() = default;

void Target::resize(int width, int height, int samples) {
  GLint most_samples = 1;
  GLint most_size = 0;
  glGetIntegerv(GL_MAX_SAMPLES, &most_samples);
  glGetIntegerv(GL_MAX_RENDERBUFFER_SIZE, &most_size);
  width = std::max(width, 1);
  height = std::max(height, 1);
  samples = std::clamp(samples, 1, std::max(1, static_cast<int>(most_samples)));
  if (width > most_size || height > most_size) {
    throw std::runtime_error("A picture of " + std::to_string(width) + " × " + std::to_string(height) +
                             " is larger than this graphics driver draws (" + std::to_string(most_size) + " at most).");
  }
  State& s = *state_;
  if (s.texture.id() != 0 && s.width == width && s.height == height && s.samples == samples) return;
  s = State{};
  s.width = width;
  s.height = height;
  s.samples = samples;

  s.texture = make<Texture>(glGenTextures);
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, s.texture.id());
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  glBindTexture(GL_TEXTURE_2D, 0);

  s.depth = make<Renderbuffer>(glGenRenderbuffers);
  glBindRenderbuffer(GL_RENDERBUFFER, s.depth.id());
  glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples > 1 ? samples : 0, GL_DEPTH24_STENCIL8, width, height);

  s.resolved = make<Framebuffer>(glGenFramebuffers);
  glBindFramebuffer(GL_FRAMEBUFFER, s.resolved.id());
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, s.texture.id(), 0);
  if (samples > 1) {
    checkWhole("resolved");
    s.colour = make<Renderbuffer>(glGenRenderbuffers);
    glBindRenderbuffer(GL_RENDERBUFFER, s.colour.id());
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples, GL_RGBA8, width, height);
    s.drawing = make<Framebuffer>(glGenFramebuffers);
    glBindFramebuffer(GL_FRAMEBUFFER, s.drawing.id());
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, s.colour.id());
  }
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_STENCIL_ATTACHMENT, GL_RENDERBUFFER, s.depth.id());
  checkWhole("multisampled");
  glBindRenderbuffer(GL_RENDERBUFFER, 0);
}

int Target::width() const {
  return state_->width;
}
int Target::height() const {
  return state_->height;
}
int Target::samples() const {
  return state_->samples;
}

void Target::begin() {
  glBindFramebuffer(GL_FRAMEBUFFER, state_->drawn());
  glViewport(0, 0, state_->width, state_->height);
}

void Target::resolve() {
  const State& s = *state_;
  if (s.samples > 1) {
    glBindFramebuffer(GL_READ_FRAMEBUFFER, s.drawing.id());
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, s.resolved.id());
    glBlitFramebuffer(0, 0, s.width, s.height, 0, 0, s.width, s.height, GL_COLOR_BUFFER_BIT, GL_NEAREST);
  }
  glBindFramebuffer(GL_FRAMEBUFFER, s.resolved.id());
  glViewport(0, 0, s.width, s.height);
}

unsigned Target::texture() const {
  return state_->texture.id();
}

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
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, s.width, s.height, GL_RGB, GL_UNSIGNED_BYTE, upside_down.data());
  glPixelStorei(GL_PACK_ALIGNMENT, 4);
  std::vector<std::uint8_t> rgb(upside_down.size());
  for (std::size_t y = 0; y < rows; ++y) {
    std::copy_n(upside_down.begin() + static_cast<std::ptrdiff_t>((rows - 1 - y) * row), row,
                rgb.begin() + static_cast<std::ptrdiff_t>(y * row));
  }
  return rgb;
}

}  // namespace sillwright::render
